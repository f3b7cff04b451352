import { projectToFrame } from '../../camera'
import { edgeAxes } from '../../meter'
import { type EdgeCut, edgeCut, placesAcross } from '../../readings'
import { closePlace, type Rig, rigSeen } from '../../rig'
import { cross, type Vec3 } from '../../space'

/** A place in a picture: shares of its width and height from the upper left corner. */
export interface PlaceIn {
  readonly x: number
  readonly y: number
}

/** Where the edge of a shadow is measured, with a ruler beside it, so that the edge itself stays in sight. */
export interface EdgeSpan {
  /** Along the edge, from where full shadow ends (first) and where full light begins (second) to the ruler; none where there is no edge. */
  readonly ticks: readonly (readonly PlaceIn[])[]
  /** The same, shorter, where 10 and 90 % of the light are reached. */
  readonly inner: readonly (readonly PlaceIn[])[]
  /** Square to the light, millimetres; null: there is no edge. */
  readonly fullMm: number | null
  /** Of the ruler the part between the ticks, the whole of it, and its marks: one each MARK_MM, counted square to the light as the width is, from the edge's beginning. */
  readonly ruler: {
    readonly edge: readonly PlaceIn[]
    readonly line: readonly PlaceIn[]
    readonly marks: readonly (readonly PlaceIn[])[]
  }
}
/** Half the length of a tick, metres. */
const TICK_M = 0.003
/** How far beside the cut the ruler lies: out on the cheek, clear of nose and lips. */
const BESIDE_M = 0.018
/** Between two marks of the ruler, and how much of it there is at least. */
export const MARK_MM = 5
const MARK_M = MARK_MM / 1000
const RULER_M = 0.025
const POINTS = 9

/** Where a place lies in the loupe's picture, whether within its frame or not; null: not before the lens. */
export function placeInLoupe(rig: Rig, point: Vec3): PlaceIn | null {
  const { view } = rigSeen(rig, 'edge')
  const at = projectToFrame(point, view.frame, view)
  return at && { x: (1 + at.x) / 2, y: (1 - at.y) / 2 }
}

/** Where the edge begins and ends along a cut, metres from the middle ray. */
export const endsOf = ({ rise }: EdgeCut): readonly [number, number] => [rise[0]!.atM, rise.at(-1)!.atM]

/** Across the cut at a place of it. */
export const tickAt = (cut: EdgeCut, atM: number): readonly Vec3[] => [cut.place(atM, -TICK_M), cut.place(atM, TICK_M)]

/** null: nothing is measured here. */
export function edgeSpan(rig: Rig): EdgeSpan | null {
  const place = closePlace(rig)
  const axes = place && edgeAxes(place.key.frame.origin, place.edge, place.lean)
  if (!place || !axes) return null
  const cut = edgeCut(rig)
  // Up along the edge under a lamp from above, so away from the lips; down over one from below.
  const way = cross(axes.axis, axes.across)[1] * axes.axis[1] < 0 ? -1 : 1
  const across = placesAcross(place, axes)
  const beside = (atM: number, byM: number) => across(atM, way * byM)
  const [from, to] = cut ? endsOf(cut) : [0, 0]
  const seen = (points: readonly Vec3[]) => points.flatMap((point) => placeInLoupe(rig, point) ?? [])
  const line = (a: number, b: number) =>
    seen(Array.from({ length: POINTS }, (_, i) => beside(a + ((b - a) * i) / (POINTS - 1), BESIDE_M)))
  const tick = (atM: number, a: number, b: number) => seen([beside(atM, a), beside(atM, b)])
  const reach = Math.max(RULER_M, to - from) / 2
  const [first, last] = [(from + to) / 2 - reach, (from + to) / 2 + reach]
  const low = Math.ceil((first - from) / MARK_M - HAIR)
  const marks = Array.from(
    { length: Math.floor((last - from) / MARK_M + HAIR) - low + 1 },
    (_, i) => from + (low + i) * MARK_M,
  )
  return {
    ticks: cut ? [from, to].map((atM) => tick(atM, 0, BESIDE_M)) : [],
    inner: cut ? [0.1, 0.9].map((share) => tick(atShare(cut, share), BESIDE_M / 2, BESIDE_M)) : [],
    fullMm: cut && 1000 * cut.fullM,
    ruler: {
      edge: cut ? line(from, to) : [],
      line: line(first, last),
      marks: marks.map((atM) => tick(atM, BESIDE_M, BESIDE_M + TICK_M)),
    },
  }
}
/** A mark at the very end counts, whatever the last digits of a float. */
const HAIR = 1e-6

/** Where a share of the light is reached along a cut, metres from the middle ray. */
function atShare({ rise }: EdgeCut, share: number): number {
  const next = Math.max(
    1,
    rise.findIndex((point) => point.share >= share - HAIR),
  )
  const [a, b] = [rise[next - 1]!, rise[next]!]
  return a.atM + ((b.atM - a.atM) * (share - a.share)) / (b.share - a.share)
}
