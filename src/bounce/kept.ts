import type { Vec3 } from '../space'
import type { HitLists, NoteRay } from './lists'
import type { BodyOwner, BounceScene } from './scene'

/**
 * Rays of the set's patches as they were last cast. Those that met the set and passed far from the sitters meet the same
 * place whatever pose these take, so the lists of the next pose take them over.
 */
export interface CastRays {
  readonly lists: HitLists
  readonly areasM2: Float32Array
  readonly patchCount: number
  readonly reach: Reach
}

export interface Reach {
  readonly box: Box
  /** Of each ray, 1: it passes the box, or its end is not known. */
  readonly touching: Uint8Array
  /** What stood in the set when they were cast, sitters apart. */
  readonly standing: readonly BodyOwner[]
}

interface Box {
  readonly low: Vec3
  readonly high: Vec3
}

/** Metres by which sitters may move before all rays are cast anew: a turned or bowed head goes less far. */
const ROOM_M = 0.15
/** Metres that stay free within the reach, for what is rounded. */
const SPARE_M = 1e-3

/** Those that hold for this scene, in which sitters alone may have moved; null: none. */
export function keptRays(before: CastRays | null, scene: BounceScene): CastRays | null {
  if (!before) return null
  const { box, standing } = before.reach
  const now = standingIn(scene)
  const isSame = now.length === standing.length && now.every((owner, i) => standsAlike(owner, standing[i]))
  return isSame && isWithin(sittersBox(scene, SPARE_M), box) ? before : null
}

/** Fills in what a ray of the new lists, `rays` of them a row, met when it was cast before; false: it must be cast. */
export function knownRays(
  { lists, areasM2: areasBefore, patchCount, reach: { touching } }: CastRays,
  rays: number,
  areasM2: Float32Array,
  reach: Reach,
): (row: number, ray: number, hits: Uint16Array) => boolean {
  return (row, ray, hits) => {
    const i = row * lists.rays + ray
    if (row >= patchCount || ray >= lists.rays || touching[i] || lists.hits[i] >= patchCount) return false
    const to = row * rays + ray
    hits[to] = lists.hits[i]
    areasM2[to] = areasBefore[i]
    reach.touching[to] = 0
    return true
  }
}

/** A new reach, and the note by which it learns of rays; within the old one where rays of that were taken over. */
export function reachOf(
  scene: BounceScene,
  kept: CastRays | null,
  rays: number,
): { readonly reach: Reach; readonly note: NoteRay } {
  const box = kept?.reach.box ?? sittersBox(scene, ROOM_M)
  const touching = new Uint8Array(rays).fill(1)
  const note: NoteRay = (ray, { point }, direction, hit) => {
    if (hit && !passes(box, point, direction)) touching[ray] = 0
  }
  return { reach: { box, touching, standing: standingIn(scene) }, note }
}

const standingIn = ({ owners }: BounceScene): readonly BodyOwner[] => owners.filter(({ kind }) => kind !== 'part')

function standsAlike(a: BodyOwner, b: BodyOwner): boolean {
  if (a.kind !== 'surface' || b.kind !== 'surface') return a === b
  const shape = ({ surface: { id, rect, back } }: typeof a) => JSON.stringify([id, rect, back === null])
  return a === b || shape(a) === shape(b)
}

/** Round all parts of all sitters, as the ray caster has them. */
function sittersBox({ owners }: BounceScene, roomM: number): Box {
  const low: [number, number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]
  const high: [number, number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const owner of owners) {
    if (owner.kind !== 'part') continue
    const { positions, indices } = owner.mesh
    for (const vertex of indices)
      for (let axis = 0; axis < 3; axis++) {
        low[axis] = Math.min(low[axis], positions[3 * vertex + axis] - roomM)
        high[axis] = Math.max(high[axis], positions[3 * vertex + axis] + roomM)
      }
  }
  return { low, high }
}

const isWithin = (inner: Box, outer: Box): boolean =>
  inner.low.every((low, axis) => low >= outer.low[axis] && inner.high[axis] <= outer.high[axis])

/** Slabs; what only grazes the box counts as passing it. */
function passes({ low, high }: Box, from: Vec3, direction: Vec3): boolean {
  let enter = 0
  let leave = Number.POSITIVE_INFINITY
  for (let axis = 0; axis < 3; axis++) {
    const [a, b] = [(low[axis] - from[axis]) / direction[axis], (high[axis] - from[axis]) / direction[axis]]
    if (Number.isNaN(a) || Number.isNaN(b)) continue
    enter = Math.max(enter, Math.min(a, b))
    leave = Math.min(leave, Math.max(a, b))
  }
  return enter <= leave
}
