import { projectToFrame } from '../../camera'
import { edgeAxes } from '../../meter'
import { type EdgeCut, edgeCut, placesAcross } from '../../readings'
import { closePlace, type Rig, rigSeen } from '../../rig'
import type { Vec3 } from '../../space'

/** A place in a picture: shares of its width and height from the upper left corner. */
export interface PlaceIn {
  readonly x: number
  readonly y: number
}

/** Where the edge of a shadow is measured, as the edge loupe has it, with a ruler laid across it on the skin or card. */
export interface EdgeSpan {
  /** From where full shadow ends to where full light begins, none where there is no edge; and across its two ends. */
  readonly cut: readonly PlaceIn[]
  readonly ticks: readonly (readonly PlaceIn[])[]
  /** Square to the light, millimetres; null: there is no edge. */
  readonly fullMm: number | null
  /** A line along the cut, and its marks: one each MARK_MM, counted square to the light as the width is, from the edge's beginning. */
  readonly ruler: { readonly line: readonly PlaceIn[]; readonly marks: readonly (readonly PlaceIn[])[] }
}
/** Half the length of a tick, metres. */
const TICK_M = 0.003
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
  const onSkin = placesAcross(place, axes)
  const cut = edgeCut(rig)
  const [from, to] = cut ? endsOf(cut) : [0, 0]
  const seen = (points: readonly Vec3[]) => points.flatMap((point) => placeInLoupe(rig, point) ?? [])
  const line = (a: number, b: number) =>
    seen(Array.from({ length: POINTS }, (_, i) => onSkin(a + ((b - a) * i) / (POINTS - 1))))
  const tick = (atM: number, half: number) => seen([onSkin(atM, -half), onSkin(atM, half)])
  const reach = Math.max(RULER_M, to - from) / 2
  const [first, last] = [(from + to) / 2 - reach, (from + to) / 2 + reach]
  const low = Math.ceil((first - from) / MARK_M - HAIR)
  const marks = Array.from(
    { length: Math.floor((last - from) / MARK_M + HAIR) - low + 1 },
    (_, i) => from + (low + i) * MARK_M,
  )
  return {
    cut: cut ? line(from, to) : [],
    ticks: cut ? [tick(from, TICK_M), tick(to, TICK_M)] : [],
    fullMm: cut && 1000 * cut.fullM,
    ruler: { line: line(first, last), marks: marks.map((atM) => tick(atM, TICK_M / 2)) },
  }
}
/** A mark at the very end counts, whatever the last digits of a float. */
const HAIR = 1e-6
