import type { Sitting } from '../sitting'
import type { Reading } from './types'

/** What tells two states of a set apart, as its readings have it. Millimetres, degrees, stops, steradians, joules; null: not there. */
export interface SetFigures {
  /** In full, whether or not a full shadow is left. */
  readonly edgeMm: number | null
  /** Whether the nose hides all of the source anywhere: not where the edge is wider than it is. */
  readonly isFull: boolean
  readonly tenToNinetyMm: number | null
  /** How wide the source appears square across the edge, from corner to corner: what the edge goes by. */
  readonly edgeDeg: number | null
  /** As it appears from the near cheek: its width, and its height. */
  readonly acrossDeg: number | null
  readonly highDeg: number | null
  readonly lossStops: number | null
  /** Light that goes into the room for each unit on the face, lm·s for each lx·s, wherever the source stands. */
  readonly roomM2: number | null
  /** How bright the near cheek is in the picture, from any zero that both sets have in common; null: held by the meter. */
  readonly exposureStops: number | null
  readonly shadowStops: number | null
  /** Share of the source that the nose hides at most, where that is known. */
  readonly hidden: number | null
  /** In the shadow under the chin. */
  readonly chinStops: number | null
  readonly nearFarStops: number | null
  readonly backdropStops: number | null
  /** For the f-number; of a source that burns on: null. */
  readonly energyJ: number | null
  /** By name. */
  readonly pattern: string | null
}

/** What a set that no meter re-exposes is seen by: the f-number of the picture, and the stops that its readings were raised by all the same. */
export interface SeenBy {
  readonly fNumber: number
  readonly raisedStops: number
}

/** Of one source, by its letter. by: of sets that are compared at equal power; null: the meter exposes each. */
export function setFigures(readings: readonly Reading[], letter: string, by: SeenBy | null = null): SetFigures {
  const byId = new Map(readings.map((reading) => [reading.id, reading]))
  const figure = (id: string, unit?: string): number | null => {
    const { value = null, unit: own } = byId.get(id) ?? {}
    if (unit !== undefined && own !== unit) return null
    return typeof value === 'number' ? value : null
  }
  const full = `edge.${letter}.nose.full`
  const pattern = byId.get('face.pattern')?.value
  const metered = figure('exposure.nearCheek.disc.light')
  return {
    edgeMm: figure(full) ?? byId.get(full)?.edgeMm ?? null,
    isFull: figure(full) !== null,
    tenToNinetyMm: figure(`edge.${letter}.nose.tenToNinety`),
    edgeDeg: byId.get(full)?.edgeDeg ?? null,
    acrossDeg: figure(`source.${letter}.apparentWidth`),
    highDeg: figure(`source.${letter}.apparentHeight`),
    lossStops: figure(`source.${letter}.loss`),
    roomM2: byId.get(`source.${letter}.roomFlux`)?.roomM2 ?? null,
    exposureStops: by && metered ? 2 * Math.log2(metered / by.fNumber) - by.raisedStops : null,
    shadowStops: figure(`edge.${letter}.nose.depth`),
    hidden: byId.get(`edge.${letter}.nose.depth`)?.hidden ?? null,
    chinStops: figure(`edge.${letter}.chin.depth`),
    nearFarStops: figure('ratio.nearFar'),
    backdropStops: figure('backdrop.stops'),
    energyJ: figure(`source.${letter}.power`, 'J'),
    pattern: typeof pattern === 'string' ? pattern : null,
  }
}

/** Below these nobody sees a difference (common practice, no source): a quarter of the edge's full width, 0.3 stop. */
export const LEAST_SEEN = { edgeShare: 0.25, stops: 0.3 }
/** Below these two figures are told as one: of an edge and of stops what is shown of them, of loss and of what goes into the room the bands of gear. */
export const LEAST_TOLD = { edgeShare: 0.05, stops: 0.1, roomTimes: 1.25, lossStops: 0.2 }

/** A figure as it is shown: a difference is told of these, so that it agrees with both. */
const shown = (stops: number): number => Number(stops.toFixed(1))
/** As they are shown, so that 0.3 stop is never told as none. */
const shownStops = (by: number): number => Number(Math.abs(by).toFixed(1))
const shownShare = (share: number): number => Number(share.toFixed(2))

export interface Difference {
  /** What is to be seen: pattern, edge, then light, largest first; empty: no visible difference. */
  readonly seen: readonly string[]
  /** What differs by the numbers and is not to be seen, or not in this picture. */
  readonly measured: readonly string[]
  /** Among these the edge, whose change is told beside what is to be seen; '': none. */
  readonly littleOfEdge: string
  /** false: nothing is read of both, as where a source stands in the face. */
  readonly isRead: boolean
}

const COMPARED = ['edgeMm', 'exposureStops', 'shadowStops', 'chinStops', 'nearFarStops', 'backdropStops'] as const

/** The colour that golden boards throw, which none of the figures tells; null: both sets have some, or neither. */
export function tintBetween(from: Pick<Sitting, 'panels'>, to: Pick<Sitting, 'panels'>): string | null {
  const [was, is] = [from, to].map(({ panels }) =>
    panels.some(({ kind, back = kind }) => [kind, back].some((cloth) => cloth.startsWith('gold'))),
  )
  if (was === is) return null
  return `${is ? 'warmer' : 'cooler'} where the golden panel ${is ? 'fills' : 'filled'}`
}

/** Of the way from one set to the other. tint: of its colour (tintBetween). */
export function differenceOf(from: SetFigures, to: SetFigures, tint: string | null = null): Difference {
  const isOther = from.pattern !== null && to.pattern !== null && from.pattern !== to.pattern
  const edge = edgeWords(from, to)
  const nose = stopsOf(
    to.isFull || to.edgeMm === null ? 'the shadow under the nose' : 'what shadow is left under the nose',
    from.shadowStops,
    to.shadowStops,
    ['darker', 'lighter'],
  )
  const chin = stopsOf('the shadow under the chin', from.chinStops, to.chinStops, ['darker', 'lighter'])
  const stops = [
    stopsOf('the picture', from.exposureStops, to.exposureStops, ['darker', 'lighter']),
    nose,
    // On the neck, the far side of the jaw: told where a fill does more there than under the nose.
    ...(chin.size > nose.size ? [chin] : []),
    stopsOf('the far cheek', from.nearFarStops, to.nearFarStops, ['darker', 'lighter']),
    stopsOf('the backdrop', from.backdropStops, to.backdropStops, ['darker', 'lighter']),
  ].sort((a, b) => b.size - a.size)
  const seen = stops.filter(({ size }) => size >= LEAST_SEEN.stops)
  const unseen = stops.filter(({ size }) => size >= LEAST_TOLD.stops && size < LEAST_SEEN.stops)
  const littleOfEdge = edge.isSeen ? '' : edge.words
  return {
    littleOfEdge,
    isRead: COMPARED.some((name) => from[name] !== null && to[name] !== null),
    seen: [
      ...(isOther ? [`pattern ${to.pattern}, not ${from.pattern}`] : []),
      ...(edge.isSeen ? [edge.words] : []),
      ...(tint ? [tint] : []),
      ...seen.map(({ words }) => words),
    ],
    measured: [
      ...(littleOfEdge ? [littleOfEdge] : []),
      ...unseen.map(({ words }) => words),
      ...roomWords(from.roomM2, to.roomM2),
      ...lossWords(from.lossStops, to.lossStops),
    ],
  }
}

/** The verdict in one line; where the eye sees no difference it says what differs by the numbers. */
export function verdictOf({ seen, measured, littleOfEdge, isRead }: Difference): string {
  if (seen.length > 0)
    return [seen.join(', '), ...(littleOfEdge ? [`${littleOfEdge}, too little for the eye`] : [])].join('; ')
  const told = measured.slice(0, MOST_MEASURED).join(', ')
  if (told) return `too little for the eye, by the numbers: ${told}`
  return isRead ? 'no difference of the light' : 'nothing to compare: the light on the face cannot be read'
}
const MOST_MEASURED = 3

const sizeWords = (stops: number): string => `${stops.toFixed(1)} ${stops < 1.05 ? 'stop' : 'stops'}`

function stopsOf(of: string, from: number | null, to: number | null, [less, more]: readonly [string, string]) {
  const by = from === null || to === null ? 0 : shown(to) - shown(from)
  const size = shownStops(by)
  return { size, words: `${of} ${sizeWords(size)} ${by < 0 ? less : more}` }
}

/** By the full widths, which an edge that leaves no full shadow has as well. */
function edgeWords(from: SetFigures, to: SetFigures): { readonly isSeen: boolean; readonly words: string } {
  const width = wider(from.edgeMm, to.edgeMm)
  if (from.isFull === to.isFull || from.edgeMm === null || to.edgeMm === null) return width
  const shadow = to.isFull ? 'there is a full shadow' : 'no full shadow is left'
  return { isSeen: true, words: [shadow, width.words].filter(Boolean).join(', ') }
}

function wider(from: number | null, to: number | null): { readonly isSeen: boolean; readonly words: string } {
  if (!from || !to) return { isSeen: false, words: '' }
  const share = shownShare(Math.abs(to - from) / Math.min(from, to))
  if (share < LEAST_TOLD.edgeShare) return { isSeen: false, words: '' }
  return { isSeen: share >= LEAST_SEEN.edgeShare, words: widthWords(to / from) }
}

/** '28 % wider' up to twice, then in times; narrower always as a share less. */
function widthWords(times: number): string {
  if (times >= 2) return `shadow edge ${times.toFixed(1)} times as wide`
  return `shadow edge ${(100 * Math.abs(times - 1)).toFixed(0)} % ${times > 1 ? 'wider' : 'narrower'}`
}

function roomWords(from: number | null, to: number | null): readonly string[] {
  if (from === null || to === null || from <= 0 || to <= 0) return []
  const times = to / from
  if (Math.max(times, 1 / times) < LEAST_TOLD.roomTimes) return []
  return [
    times > 1
      ? `${times.toFixed(1)} times the light into the room`
      : `${(100 * times).toFixed(0)} % of the light into the room`,
  ]
}

function lossWords(from: number | null, to: number | null): readonly string[] {
  if (from === null || to === null) return []
  const size = shownStops(shown(to) - shown(from))
  return size < LEAST_TOLD.lossStops ? [] : [`costs ${sizeWords(size)} ${to < from ? 'more' : 'less'}`]
}
