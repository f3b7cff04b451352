import { viewTangent } from '../../camera'
import type { Rig } from '../../rig'
import { moveObject, type Sitting, setObject, type TestObject, thingById } from '../../sitting'
import { addScaled, dot, subtract, type Vec3 } from '../../space'

/** Between the object and whatever the picture shows beside it, and from the picture's edge, metres. */
const CLEAR_M = { things: 0.01, edge: 0.008 }
/** Side of a cell of what is taken, and the step between places tried, metres. */
const CELL_M = 0.008
const STEP_M = 0.01
/** An object that has no room is made smaller by tenths, down to this share. */
const LEAST_SHARE = 0.3

/** A plane at the sitter's distance, square to the lens: metres right and up of where the lens looks. */
interface Sight {
  readonly at: number
  readonly half: readonly [number, number]
  project(p: Vec3): readonly [number, number] | null
  world(u: number, v: number): Vec3
}

/**
 * A new object beside the face, at the sitter's distance: whole within the picture, off the sitter and off the other
 * objects, as near to the eyes as it can be, and smaller where there is no room. As it was where nothing helps.
 */
export function besideSitter(sitting: Sitting, rig: Rig, id: string): Sitting {
  const figure = rig.figures[0]?.posed
  if (!figure) return sitting
  const sight = sightAt(rig, figure.eyeMidpoint)
  const eyes = sight?.project(figure.eyeMidpoint)
  if (!sight || !eyes) return sitting
  const object = thingById(sitting, 'objects', id)
  // Apart on the plan as well, if that can be: two things at one place of the floor could not be taken in hand there.
  for (const apartOnPlan of [true, false]) {
    const taken = takenCells(sitting, rig, id, sight, apartOnPlan)
    for (let tenths = 10; tenths >= 10 * LEAST_SHARE; tenths--) {
      const [hx, hy] = halfOf(object).map((m) => (m * tenths) / 10) as [number, number]
      const place = nearest(sight, eyes, [hx, hy], taken)
      if (!place) continue
      const centre = sight.world(...place).map(round) as unknown as Vec3
      return moveObject(setObject(sitting, id, sizes(object, tenths / 10)), id, centre)
    }
  }
  return sitting
}

function sightAt({ view }: Rig, through: Vec3): Sight | null {
  const { frame, focalLengthMm } = view
  const depth = (p: Vec3) => dot(subtract(p, frame.origin), frame.z)
  const at = depth(through)
  if (!(at > 0)) return null
  return {
    at,
    half: [at * viewTangent(view.sensorWidthMm, focalLengthMm), at * viewTangent(view.sensorHeightMm, focalLengthMm)],
    project: (p) => {
      const from = subtract(p, frame.origin)
      const k = at / depth(p)
      return k > 0 ? [-dot(from, frame.x) * k, dot(from, frame.y) * k] : null
    },
    world: (u, v) => addScaled(addScaled(addScaled(frame.origin, frame.z, at), frame.x, -u), frame.y, v),
  }
}

function halfOf(object: TestObject): readonly [number, number] {
  return object.kind === 'ball' ? [object.diameterM / 2, object.diameterM / 2] : [object.widthM / 2, object.heightM / 2]
}

const round = (m: number): number => Math.round(m * 1000) / 1000

const sizes = (object: TestObject, share: number): Readonly<Record<string, number>> =>
  object.kind === 'ball'
    ? { diameterM: round(object.diameterM * share) }
    : { widthM: round(object.widthM * share), heightM: round(object.heightM * share) }

const cell = (m: number): number => Math.floor(m / CELL_M)
const key = (i: number, j: number): number => i * 65536 + j

/**
 * What the picture shows of the sitter, by vertices that lie closer than a cell, and of the other objects: those from top
 * to bottom of the frame where things are to stand apart on the plan.
 */
function takenCells(sitting: Sitting, rig: Rig, id: string, sight: Sight, apartOnPlan: boolean): ReadonlySet<number> {
  const taken = new Set<number>()
  const mark = (p: readonly [number, number] | null) => p && taken.add(key(cell(p[0]), cell(p[1])))
  for (const { posed } of rig.figures)
    for (const { mesh } of posed.parts)
      for (let i = 0; i < mesh.positions.length; i += 3)
        mark(sight.project([mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!]))
  for (const other of sitting.objects) {
    const middle = other.id === id ? null : sight.project(other.centreM as Vec3)
    if (!middle) continue
    const [hx, high] = halfOf(other)
    const hy = apartOnPlan ? 2 * sight.half[1] : high
    for (let u = -hx; u <= hx; u += CELL_M) for (let v = -hy; v <= hy; v += CELL_M) mark([middle[0] + u, middle[1] + v])
  }
  return taken
}

function nearest(
  { half }: Sight,
  eyes: readonly [number, number],
  [hx, hy]: readonly [number, number],
  taken: ReadonlySet<number>,
): readonly [number, number] | null {
  const [limitU, limitV] = [half[0] - hx - CLEAR_M.edge, half[1] - hy - CLEAR_M.edge]
  let best: readonly [number, number] | null = null
  let bestWay = Number.POSITIVE_INFINITY
  for (let u = -limitU; u <= limitU; u += STEP_M)
    for (let v = -limitV; v <= limitV; v += STEP_M) {
      const way = Math.hypot(u - eyes[0], v - eyes[1])
      if (way >= bestWay || !isFree(u, v, hx + CLEAR_M.things, hy + CLEAR_M.things, taken)) continue
      best = [u, v]
      bestWay = way
    }
  return best
}

function isFree(u: number, v: number, hx: number, hy: number, taken: ReadonlySet<number>): boolean {
  for (let i = cell(u - hx); i <= cell(u + hx); i++)
    for (let j = cell(v - hy); j <= cell(v + hy); j++) if (taken.has(key(i, j))) return false
  return true
}
