/** Ids of the words that open what is loaded when it is asked for; when that is shut, the focus goes back to its word. */
export const CONTACT_WORD = 'contact-word'
export const PAIR_WORD = 'pair-word'
export const SITTINGS_WORD = 'sittings-word'
export const HELP_WORD = 'help-word'
export const JUDGE_WORD = 'judge-word'
export const SEES_WORD = 'sees-word'

/** Of the skin whose half-room is shown first. */
export const FIRST_PLACE = 'shadowCheek'
