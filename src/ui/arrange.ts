import type { Reading } from '../readings'

/** The readings that a photographer looks at first, by id; X stands for the letter of the source in hand. */
const FIRST = [
  'exposure.nearCheek.disc.light',
  'edge.X.nose.full',
  'edge.X.nose.depth',
  'face.pattern',
  'backdrop.stops',
  'source.X.power',
  'ratio.nearFar',
  'source.X.azimuthFromNose',
  'source.X.azimuthFromLens',
  'source.X.centreHeight',
]

/**
 * The readings in the order of the page: those that are pinned, those named in `first`, the usual first ones, the rest as they come, last those that this set has not got.
 * What is not there for the same reason twice is said once.
 */
export function arrange(
  readings: readonly Reading[],
  letter: string,
  first: readonly string[] = [],
  pins: readonly string[] = [],
): readonly Reading[] {
  const wanted = [...first, ...FIRST.map((id) => id.replace('X', letter))]
  const rank = ({ id, value, sentence }: Reading): number => {
    // What is pinned stays where it is, also while this set has not got it.
    if (pins.includes(id)) return pins.indexOf(id) - pins.length
    const place = wanted.indexOf(id)
    // What is only not traced yet keeps its place: it comes in a moment.
    if (value === null && !/not yet traced/.test(sentence)) return wanted.length + 1
    return place >= 0 ? place : wanted.length
  }
  const said = new Set<string>()
  const news = ({ id, value, text, sentence }: Reading): boolean => {
    if (pins.includes(id)) return true
    const words = `${text} ${sentence}`
    if (value === null && said.has(words)) return false
    said.add(words)
    return true
  }
  return readings
    .filter(news)
    .map((reading, i) => ({ reading, i, rank: rank(reading) }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i)
    .map(({ reading }) => reading)
}
