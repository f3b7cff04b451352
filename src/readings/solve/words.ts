import type { Sitting } from '../../sitting'
import type { Goal } from './types'

/** Goals as a photographer says them; the page's words and the command's. */
export const ASKED_FOR = [
  'f/8',
  'f/8 by A',
  'fill −1',
  '3:1',
  'cheeks 2',
  'white',
  'mid-grey',
  'black',
  'hair −1',
] as const

const NUMBER = '([+-]?\\d+(?:\\.\\d+)?)'
const TONE_WORDS = {
  white: 'white',
  grey: 'mid-grey',
  gray: 'mid-grey',
  'mid-grey': 'mid-grey',
  black: 'black',
} as const

/** Backdrop and hair light are lit over the face as often as under it, so a number without a sign is asked back. */
const overOrUnder = (what: string, n: string): string | null =>
  /^[+-]/.test(n) || Number(n) === 0
    ? null
    : `${n} stops over the face, or under it? Ask for ${what} +${n} or ${what} −${n}`

type Read = (found: RegExpExecArray, sitting: Sitting) => Goal | string

const FORMS: readonly (readonly [RegExp, Read])[] = [
  [new RegExp(`^f/?${NUMBER}$`), ([, n]) => ({ kind: 'f-number', fNumber: Number(n) })],
  [
    new RegExp(`^f/?${NUMBER} by ([a-z])$`),
    ([, n, letter], { sources }) => {
      const source = sources.find((other) => other.letter.toLowerCase() === letter)
      return source
        ? { kind: 'f-number by distance', fNumber: Number(n), sourceId: source.id }
        : `no source ${letter!.toUpperCase()}; there are ${sources.map((other) => other.letter).join(', ') || 'none'}`
    },
  ],
  // 'Fill 1' is one under, as 'fill −1' is: fill over key is only what has a plus.
  [
    new RegExp(`^fill ${NUMBER}$`),
    ([, n]) => ({ kind: 'fill under key', stops: n!.startsWith('+') ? -Number(n) : Math.abs(Number(n)) }),
  ],
  [
    new RegExp(`^key ?: ?fill ${NUMBER} ?: ?1$`),
    ([said, n]) =>
      Number(n) > 0
        ? { kind: 'fill under key', stops: Math.log2(Number(n)) }
        : `expected a ratio over 0 : 1, got "${said}": ask for key:fill 2:1 or the like`,
  ],
  [
    new RegExp(`^(?:highlight ?: ?shadow )?${NUMBER} ?: ?1$`),
    ([, n]) => ({ kind: 'highlight over shadow', ratio: Number(n) }),
  ],
  [new RegExp(`^cheeks ${NUMBER}$`), ([, n]) => ({ kind: 'far cheek under near', stops: Math.abs(Number(n)) })],
  [
    new RegExp(`^backdrop ${NUMBER}$`),
    ([, n]) => overOrUnder('backdrop', n!) ?? { kind: 'backdrop over face', stops: Number(n) },
  ],
  [new RegExp(`^hair ${NUMBER}$`), ([, n]) => overOrUnder('hair', n!) ?? { kind: 'hair light', stops: Number(n) }],
  [
    /^(?:backdrop )?(white|mid-grey|grey|gray|black)( by distance)?$/,
    ([, word, far]) => ({
      kind: far ? 'backdrop tone by distance' : 'backdrop tone',
      tone: TONE_WORDS[word as keyof typeof TONE_WORDS],
    }),
  ],
]

/** The goal in some words, or a sentence that says what could be asked. */
export function goalFrom(text: string, sitting: Sitting): Goal | string {
  const said = text
    .trim()
    .toLowerCase()
    .replaceAll('−', '-')
    .replace(/(\d),(\d)/g, '$1.$2')
    .replace(/\s+/g, ' ')
    .replace(/,? please$/, '')
    .replace(/ stops?$/, '')
  for (const [form, read] of FORMS) {
    const found = form.exec(said)
    if (found) return read(found, sitting)
  }
  return `expected words such as ${ASKED_FOR.join(', ')}, got "${text}"`
}
