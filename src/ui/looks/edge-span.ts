import { projectToFrame } from '../../camera'
import { type EdgeCut, edgeCut } from '../../readings'
import { type Rig, rigSeen } from '../../rig'
import type { Vec3 } from '../../space'

/** A place in a picture: shares of its width and height from the upper left corner. */
export interface PlaceIn {
  readonly x: number
  readonly y: number
}

/** Where the edge of a shadow is measured, as the edge loupe has it. */
export interface EdgeSpan {
  /** From where full shadow ends to where full light begins, on the skin or card. */
  readonly cut: readonly PlaceIn[]
  /** Across its two ends. */
  readonly ticks: readonly (readonly PlaceIn[])[]
  /** Square to the light, millimetres. */
  readonly fullMm: number
}

/** Half the length of a tick, metres. */
const TICK_M = 0.003
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

/** null: the key throws no edge that is measured here. */
export function edgeSpan(rig: Rig): EdgeSpan | null {
  const cut = edgeCut(rig)
  if (!cut) return null
  const [from, to] = endsOf(cut)
  const seen = (points: readonly Vec3[]) => points.flatMap((point) => placeInLoupe(rig, point) ?? [])
  const along = Array.from({ length: POINTS }, (_, i) => cut.place(from + ((to - from) * i) / (POINTS - 1)))
  return {
    cut: seen(along),
    ticks: [from, to].map((atM) => seen(tickAt(cut, atM))),
    fullMm: 1000 * cut.fullM,
  }
}
