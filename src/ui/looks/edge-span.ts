import { projectToFrame } from '../../camera'
import { edgeAxes } from '../../meter'
import { type EdgeCut, edgeCut, placesAcross } from '../../readings'
import { closePlace, type Rig, rigSeen } from '../../rig'
import { cross, distance, normalize, type RayCaster, subtract, type Vec3 } from '../../space'

/** A place in a picture: shares of its width and height from the upper left corner. */
export interface PlaceIn {
  readonly x: number
  readonly y: number
}

/** Where an end of an edge lies: to be seen on the skin that it is measured on, hidden by what stands before that, or past where the face falls away. */
export type EndLies = 'seen' | 'hidden' | 'past'

/** Where the edge of a shadow is measured, with a ruler beside it, so that the edge itself stays in sight. */
export interface EdgeSpan {
  /** Along the edge, from where the source begins to show (first) and from where all of it shows (second) to the ruler: only of an end that is seen. */
  readonly ticks: readonly (readonly PlaceIn[])[]
  /** The same, shorter, where 10 and 90 % of the light are reached. */
  readonly inner: readonly (readonly PlaceIn[])[]
  /** Where the two ends lie; none where there is no edge. */
  readonly ends: readonly EndLies[]
  /** Square to the light, millimetres; null: there is no edge. */
  readonly fullMm: number | null
  /** The source stands all round: what it makes is wider than the face. */
  readonly isAllRound: boolean
  /** As long as the edge, from its beginning, as far as the face reaches, to a mark; and its marks: one each MARK_MM, counted square to the light as the width is, but for one that would merge with that of its end. */
  readonly ruler: {
    readonly line: readonly PlaceIn[]
    readonly marks: readonly (readonly PlaceIn[])[]
    /** So much of it is drawn, millimetres: to its last mark before the face falls away. */
    readonly drawnMm: number
    /** So much of it, from its beginning, is beside an edge that the nose hides, millimetres. */
    readonly hiddenMm: number
  }
}
/** Half the length of a tick, metres. */
const TICK_M = 0.003
/** How far beside the cut the ruler lies, metres: nearer to a narrow edge, and of a wide one out on the cheek, clear of nose and lips. */
const BESIDE_M = { least: 0.008, most: 0.018 }
const besideOf = (fullM: number): number => Math.min(BESIDE_M.most, BESIDE_M.least + fullM / 2)
/** Between two marks of the ruler. */
export const MARK_MM = 5
const MARK_M = MARK_MM / 1000
/** A mark nearer than this to that of the end would merge with it, metres. */
const CLEAR_M = 0.002
/** Pieces of the ruler's line. */
const PIECES = 24
/** A place of the plane that is measured on counts as on the skin so far before or behind it, metres: a cheek is no plane. */
const SKIN_M = 0.009
/** And the ruler, which only stands before the face, so far before it. */
const OFF_FACE_M = 0.025

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

/** null: nothing is measured here. caster: of what stands in the room. */
export function edgeSpan(rig: Rig, caster: Pick<RayCaster, 'nearest'>): EdgeSpan | null {
  const place = closePlace(rig)
  const axes = place && edgeAxes(place.key.frame.origin, place.edge, place.lean)
  if (!place || !axes) return null
  const cut = edgeCut(rig)
  const isAllRound = place.key.remote?.kind === 'around'
  if (!cut) return { ticks: [], inner: [], ends: [], fullMm: null, isAllRound, ruler: NO_RULER }
  // Up along the edge under a lamp from above, so away from the lips; down over one from below.
  const way = cross(axes.axis, axes.across)[1] * axes.axis[1] < 0 ? -1 : 1
  const across = placesAcross(place, axes)
  const beside = (atM: number, byM: number) => across(atM, way * byM)
  const behindM = depthIn(rig, caster)
  const lies = (point: Vec3): EndLies => {
    const m = behindM(point)
    return Math.abs(m) <= SKIN_M ? 'seen' : m > 0 ? 'hidden' : 'past'
  }
  const both = endsOf(cut)
  const [from, to] = both
  const besideM = besideOf(cut.fullM)
  const seen = (points: readonly Vec3[]) => points.flatMap((point) => placeInLoupe(rig, point) ?? [])
  const beforeFace = (all: readonly number[]) => {
    const past = all.findIndex((atM) => behindM(beside(atM, besideM)) < -OFF_FACE_M)
    return past < 0 ? all : all.slice(0, past)
  }
  // Of so narrow an edge the lines would cover it: they end beside it.
  const leadM = cut.fullM < CLEAR_M / 2 ? besideM / 2 : 0
  const tick = (atM: number, a: number, b: number) => seen([beside(atM, a), beside(atM, b)])
  const whole = Array.from({ length: Math.ceil((to - from) / MARK_M - HAIR) }, (_, i) => from + i * MARK_M)
  const all = [...whole.filter((atM, i) => i === 0 || to - atM >= CLEAR_M), to]
  const marks = beforeFace(all)
  const drawnTo = marks.at(-1) ?? from
  const steps = Array.from({ length: PIECES + 1 }, (_, i) => from + ((drawnTo - from) * i) / PIECES)
  const ends = both.map((atM) => lies(beside(atM, 0)))
  const seenFrom = ends[0] === 'hidden' ? (steps.find((atM) => lies(beside(atM, 0)) !== 'hidden') ?? drawnTo) : from
  return {
    ticks: both.filter((_, i) => ends[i] === 'seen').map((atM) => tick(atM, leadM, besideM)),
    inner: beforeFace([0.1, 0.9].map((share) => atShare(cut, share))).map((atM) => tick(atM, besideM / 2, besideM)),
    ends,
    fullMm: 1000 * cut.fullM,
    isAllRound,
    ruler: {
      line: marks.length < 2 ? [] : seen(steps.map((atM) => beside(atM, besideM))),
      marks: marks.map((atM) => tick(atM, besideM, besideM + TICK_M)),
      drawnMm: 1000 * (drawnTo - from),
      hiddenMm: 1000 * (seenFrom - from),
    },
  }
}

/** How far behind what the lens sees there a place lies, metres; negative: before it, and infinitely before nothing. */
function depthIn(rig: Rig, caster: Pick<RayCaster, 'nearest'>): (point: Vec3) => number {
  const lens = rigSeen(rig, 'edge').view.frame.origin
  return (point) => {
    const hit = caster.nearest(lens, normalize(subtract(point, lens)))
    return hit ? distance(lens, point) - hit.distance : Number.NEGATIVE_INFINITY
  }
}
const NO_RULER = { line: [], marks: [], drawnMm: 0, hiddenMm: 0 }

/** A mark at the very end is that of the end, whatever the last digits of a float. */
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
