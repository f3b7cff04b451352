import { defaultModifier } from '../../../src/gear'
import type { Sitting, Source } from '../../../src/sitting'
import type { Vec3 } from '../../../src/space'

/** Key, fill, hair light, rim, backdrop light and a lamp from below: kinds, and places in the notice board's set, m. */
const SOURCES: readonly {
  readonly kind: string
  readonly centreM: Vec3
  readonly aimM?: Vec3
  readonly stops: number
}[] = [
  { kind: 'white-umbrella', centreM: [0.75, 1.85, 0.75], stops: -3 },
  { kind: 'softbox', centreM: [-1.1, 1.5, 1.2], stops: -5 },
  { kind: 'snoot', centreM: [0.5, 2.2, -0.9], stops: -4 },
  { kind: 'strip', centreM: [-1.1, 1.5, -0.7], stops: -4 },
  { kind: 'dish', centreM: [1.1, 0.8, -0.9], aimM: [0, 1.2, -1.5], stops: -4 },
  { kind: 'octa', centreM: [0.3, 0.7, 1.2], stops: -6 },
]
export const MOST_SOURCES = SOURCES.length

/** The first `count` of six sources, a white and a silver panel, in the notice board's room. */
export function withSources(noticeBoard: Sitting, count: number): Sitting {
  const [model] = noticeBoard.sources as [Source]
  const [white] = noticeBoard.panels
  const silver = { ...white, id: 'silver', kind: 'silver' as const, centreM: [0.55, 0.85, 0.35] as const, turnDeg: -60 }
  return {
    ...noticeBoard,
    sources: SOURCES.slice(0, count).map(({ kind, centreM, aimM = model.aimM, stops }, i) => ({
      ...model,
      id: `source-${i}`,
      letter: 'ABCDEF'[i],
      head: { ...model.head, powerStops: stops },
      modifier: defaultModifier(kind),
      centreM,
      aimM,
    })),
    panels: [white, silver],
  }
}
