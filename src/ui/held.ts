/** No line ends between a number and its unit. */
export const held = (words: string): string =>
  words.replace(/(\d) (?=(?:mm|cm|m|J|sr|stops?|times|%)(?!\w))/g, '$1\u00a0')
