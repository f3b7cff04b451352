import type { Reading } from '../readings'
import type { Sitting } from '../sitting'

/** The readings that a photographer looks at first, by id; X stands for the letter of the source in hand. */
const FIRST = [
  'exposure.nearCheek.disc.light',
  'edge.X.nose.full',
  'ratio.nearFar',
  'edge.X.nose.depth',
  'face.pattern',
  'backdrop.stops',
  'source.X.power',
  'source.X.azimuthFromNose',
  'source.X.azimuthFromLens',
  'source.X.centreHeight',
]

const OF_CAMERA = [
  'camera.depth',
  'camera.field',
  'camera.perspective',
  'camera.blackFrame',
  'camera.cast.near',
  'camera.roomLight',
]
const OF_BACKDROP = ['backdrop.stops', 'backdrop.spread', 'backdrop.shadow.X', 'backdrop.wrap']
/** What a board changes is how deep the shadows go, and how far one cheek is under the other. */
const OF_PANEL = ['edge.X.nose.depth', 'ratio.nearFar']
const OF_ROOM = ['edge.X.nose.room', 'source.X.roomFlux', 'backdrop.veil']
const OF_SITTER = ['face.pattern', 'face.side', 'ratio.nearFar']

/** Ids of the readings that the thing in hand moves first, X standing for the letter of the source; of a source they are the usual ones. */
export function firstFor(sitting: Sitting, selected: string | null): readonly string[] {
  if (selected === 'camera') return OF_CAMERA
  if (selected === 'backdrop') return OF_BACKDROP
  if (selected === 'room') return OF_ROOM
  const meter = sitting.meterPlaces.find(({ id }) => id === selected)
  if (meter) return [`place.${meter.id}`, `grid.${meter.grid}.spread`]
  if (sitting.panels.some(({ id }) => id === selected)) return OF_PANEL
  if (sitting.sitters.some(({ id }) => id === selected)) return OF_SITTER
  const source = sitting.sources.find(({ id }) => id === selected)
  return source?.role === 'backdrop' ? OF_BACKDROP : []
}

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
  const wanted = [...first, ...FIRST].map((id) => id.replace('X', letter))
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
