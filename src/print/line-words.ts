import { plain, runsOf, type Words } from './types'

export interface LineWord {
  readonly text: string
  readonly isBold: boolean
  /** A line must end behind it. */
  readonly ends: boolean
}

/** Words with the white behind them: where a line may end; a hard space ends none. */
const WORDS = /[\S\u00a0]+[^\S\u00a0\n]*\n?|[^\S\u00a0\n]+|\n/g
export const lineWords = (words: Words): readonly LineWord[] =>
  runsOf(words).flatMap((run) =>
    (plain([run]).match(WORDS) ?? []).map((text) => ({
      text: text.replace('\n', ''),
      isBold: typeof run !== 'string',
      ends: text.endsWith('\n'),
    })),
  )
