import type { Reading } from '../readings'
import { apart, isFNumber, timesWords, withUnit } from './judge'

/** Readings of a state by its name; null: not read yet. */
export type ReadingsBySet = (set: string) => readonly Reading[] | null

/** A piece of prose: words, or a number of the program. null text: not read yet, or hidden. */
export type Piece =
  | { readonly kind: 'words'; readonly text: string }
  | {
      readonly kind: 'number'
      readonly text: string | null
      readonly sets: readonly string[]
      readonly reading: string
      readonly by?: '-' | '/'
    }

const BRACES = /\{([^{}]*)\}/g
const INSIDE = /^\s*(.+?)(?:\s+([-/])\s+(.+?))?\s*:\s*([\w.-]+)\s*$/

export interface Placeholder {
  readonly sets: readonly string[]
  readonly reading: string
  /** What is told of two states: how far they lie apart, or how many times the second the first is. */
  readonly by?: '-' | '/'
}

/** What stands in braces: 'dish: edge.A.nose.full', 'box - dish: …' or 'box / dish: …'; null: none of them. */
function placeholderOf(inside: string): Placeholder | null {
  const [, first, by, second, reading] = INSIDE.exec(inside) ?? []
  if (!first || !reading) return null
  return second ? { sets: [first, second], reading, by: by as '-' | '/' } : { sets: [first], reading }
}

/** All that stands in braces, and what of it names nothing. */
export function placeholdersIn(text: string): {
  readonly good: readonly Placeholder[]
  readonly bad: readonly string[]
} {
  const inside = [...text.matchAll(BRACES)].map((match) => match[1]!)
  return {
    good: inside.map(placeholderOf).filter((found) => found !== null),
    bad: inside.filter((each) => placeholderOf(each) === null),
  }
}

/** Prose with its numbers filled in. hidden: states whose numbers are not shown yet. */
export function piecesOf(text: string, readings: ReadingsBySet, hidden: readonly string[] = []): readonly Piece[] {
  return text.split(/(\{[^{}]*\})/).flatMap((part): readonly Piece[] => {
    if (part === '') return []
    const found = part.startsWith('{') ? placeholderOf(part.slice(1, -1)) : null
    if (!found) return [{ kind: 'words', text: part }]
    const isHidden = found.sets.some((set) => hidden.includes(set))
    return [{ kind: 'number', ...found, text: isHidden ? null : numberWords(found, readings) }]
  })
}

/** '29 mm', 'f/8 + 0.2', '1.0 stop', '2.7 times'; a difference without a sign. null: not read yet. */
function numberWords({ sets, reading: id, by }: Placeholder, readings: ReadingsBySet): string | null {
  const found = sets.map((set) => readings(set)?.find((each) => each.id === id))
  if (found.some((each) => each === undefined)) return null
  const [a, b] = found as Reading[]
  if (!b) return withUnit(a!.text, a!.unit)
  if (by === '/') return timesWords(a!, b) ?? '–'
  const between = apart(a!, b)
  if (between === null) return '–'
  const unit = isFNumber(a!) ? 'stop' : a!.unit
  const size = Math.abs(between)
  return withUnit(size.toFixed(unit === '°' || (unit === 'mm' && size >= 5) ? 0 : unit === 'm' ? 2 : 1), unit)
}
