import type { Reading } from './types'

/** What tells two states of a set apart, as its readings have it. Millimetres, degrees, stops, joules; null: not there. */
export interface SetFigures {
  readonly edgeMm: number | null
  readonly tenToNinetyMm: number | null
  /** As it looks from the near cheek: its width, and its height. */
  readonly acrossDeg: number | null
  readonly highDeg: number | null
  readonly lossStops: number | null
  readonly shadowStops: number | null
  readonly nearFarStops: number | null
  readonly backdropStops: number | null
  /** For the f-number; of a source that burns on: null. */
  readonly energyJ: number | null
  /** By name. */
  readonly pattern: string | null
}

/** Of one source, by its letter. */
export function setFigures(readings: readonly Reading[], letter: string): SetFigures {
  const byId = new Map(readings.map((reading) => [reading.id, reading]))
  const figure = (id: string, unit?: string): number | null => {
    const { value = null, unit: own } = byId.get(id) ?? {}
    if (unit !== undefined && own !== unit) return null
    return typeof value === 'number' ? value : null
  }
  const pattern = byId.get('face.pattern')?.value
  return {
    edgeMm: figure(`edge.${letter}.nose.full`),
    tenToNinetyMm: figure(`edge.${letter}.nose.tenToNinety`),
    acrossDeg: figure(`source.${letter}.apparentWidth`),
    highDeg: figure(`source.${letter}.apparentHeight`),
    lossStops: figure(`source.${letter}.loss`),
    shadowStops: figure(`edge.${letter}.nose.depth`),
    nearFarStops: figure('ratio.nearFar'),
    backdropStops: figure('backdrop.stops'),
    energyJ: figure(`source.${letter}.power`, 'J'),
    pattern: typeof pattern === 'string' ? pattern : null,
  }
}

/** Below these nobody sees a difference (common practice, no source): a quarter of the edge's width, 0.3 stop. */
export const LEAST_SEEN = { edgeShare: 0.25, stops: 0.3 }

/** What is to be seen of the way from one set to the other: pattern, edge, then light, largest first; empty: no visible difference. */
export function seenDifference(from: SetFigures, to: SetFigures): readonly string[] {
  const stops = [
    { of: 'the shadow', by: change(from.shadowStops, to.shadowStops), ways: ['deeper', 'lighter'] },
    { of: 'the far cheek', by: change(from.nearFarStops, to.nearFarStops), ways: ['darker', 'lighter'] },
    { of: 'the backdrop', by: change(from.backdropStops, to.backdropStops), ways: ['darker', 'lighter'] },
  ]
    .filter(({ by }) => Math.abs(by) >= LEAST_SEEN.stops)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by))
    .map(({ of, by, ways }) => `${of} ${sizeWords(Math.abs(by))} ${ways[by < 0 ? 0 : 1]}`)
  const isOther = from.pattern !== null && to.pattern !== null && from.pattern !== to.pattern
  const pattern = isOther ? [`${to.pattern} in place of ${from.pattern}`] : []
  return [...pattern, ...edgeWords(from.edgeMm, to.edgeMm), ...stops]
}

const sizeWords = (stops: number): string => `${stops.toFixed(1)} ${stops < 1.05 ? 'stop' : 'stops'}`

const change = (from: number | null, to: number | null): number => (from === null || to === null ? 0 : to - from)

function edgeWords(from: number | null, to: number | null): readonly string[] {
  if (from === null && to === null) return []
  if (from === null) return ['there is a full shadow']
  if (to === null) return ['no full shadow is left']
  if (from === 0 || to === 0 || Math.abs(to - from) < LEAST_SEEN.edgeShare * Math.max(from, to)) return []
  const times = to / from
  return [times < 1 ? `edge ${(100 * times).toFixed(0)} % as wide` : `edge ${times.toFixed(1)} times as wide`]
}
