import { add, type Mesh, radians, rotateAbout, scale, subtract, type Vec3 } from '../space'
import { coarseHeadWeight, coarseVertices } from './coarse'
import { Eyes } from './eyes'
import type { Gaze, PosedGaze } from './gaze'
import type { LensPair } from './glasses/lens'
import { once } from './lazily'
import { leanRotation, SEAT } from './lean'
import { apply, applyBack, axisAngle, type Matrix, product, rotation, sameNumbers } from './rotation'
import type { Carriage, FigureAsset, FigurePart, Landmark, LandmarkName, Pose, PosedFigure, PosedPart } from './types'

/** The body turns about the vertical through the middle of the neck and chest, head-local metres. */
const BODY_AXIS: Vec3 = [0, 0, -0.09]
const UPRIGHT = { forwardM: 0, asideM: 0 } as const
const AHEAD = { acrossDeg: 0, upDeg: 0 } as const

/**
 * The figure in the room. The trunk leans about the seat, then turns. Each vertex turns with the head by its headWeight: that
 * share of the turn from trunk to head about the head's pivot, along one axis, so the neck twists evenly and cannot tear. The
 * head's angles are in the room: it stays as it is held when the trunk leans. Before all that the eyeballs turn, each about
 * its own centre, and the lids go with them.
 */
export function poseFigure(asset: FigureAsset, pose: Pose): PosedFigure {
  const posing = new Posing(asset.headPivot, pose)
  const eyes = new Eyes(asset, posing.gazeTarget(pose.gaze))
  const landmarks = Object.fromEntries(
    Object.entries(asset.landmarks).map(([name, place]) => [name, posing.landmark(eyes.landmark(name, place))]),
  ) as Record<LandmarkName, Landmark>
  return {
    parts: asset.parts.map((part) => posing.part(part, eyes.part(part))),
    landmarks,
    noseDirection: posing.direction([0, 0, 1], 1),
    headUp: posing.direction([0, 1, 0], 1),
    eyeMidpoint: posing.point([0, 0, 0], 1),
    gaze: eyes.gaze,
    lenses: asset.lenses && posing.lenses(asset.lenses),
    carriage: posing.carriage,
  }
}

/** A point of the room as the head sees it: metres, axes of the head, from the eyes' midpoint. headPivot: of the asset. */
export const pointFromHead = (headPivot: Vec3, pose: Pose, point: Vec3): Vec3 =>
  new Posing(headPivot, pose).inHead(point)

/** What goes with the trunk alone, as it was last. */
const lastOnTrunk = new WeakMap<
  FigurePart,
  { readonly rest: Mesh; readonly body: Matrix; readonly at: Vec3; readonly posed: PosedPart }
>()

const WAY = 12
interface Runs {
  readonly ends: Uint32Array
  readonly ways: Float64Array
}

const knownEnds = new WeakMap<Float32Array, Uint32Array>()

function runEnds(headWeight: Float32Array): Uint32Array {
  const known = knownEnds.get(headWeight)
  if (known) return known
  const ends: number[] = []
  for (let v = 1; v <= headWeight.length; v++) if (headWeight[v] !== headWeight[v - 1]) ends.push(v)
  const list = Uint32Array.from(ends)
  knownEnds.set(headWeight, list)
  return list
}

class Posing {
  private readonly body: Matrix
  private readonly axis: Vec3
  private readonly angle: number
  private readonly at: Vec3
  private readonly full: Matrix
  private readonly partial = new Float64Array(9)
  private readonly runs = new Map<Float32Array, Runs>()

  constructor(
    private readonly pivot: Vec3,
    pose: Pose,
  ) {
    const head = headColumns(radians(pose.headTurnDeg), radians(pose.chinDeg), radians(pose.headTiltDeg))
    const turn = rotation([0, 1, 0], radians(pose.bodyTurnDeg))
    const lean = leanRotation(pose.lean ?? UPRIGHT, pivot)
    this.body = product(turn, lean)
    const relative = axisAngle(head.map((v) => applyBack(this.body, v)) as [Vec3, Vec3, Vec3])
    this.axis = relative.axis
    this.angle = relative.angle
    this.full = rotation(this.axis, this.angle)
    // Seat and axis of the body stand still, each in its own step: x ↦ at + axis + turn·(seat + lean·(x − seat) − axis).
    const kept = subtract(subtract(SEAT, apply(lean, SEAT)), BODY_AXIS)
    this.at = add(add(pose.positionM, [0, pose.eyeHeightM, 0]), add(BODY_AXIS, apply(turn, kept)))
  }

  get carriage(): Carriage {
    const column = (k: number): Vec3 => [this.body[k], this.body[k + 3], this.body[k + 6]]
    const { axis, angle } = axisAngle([column(0), column(1), column(2)])
    return { pivot: this.pivot, at: this.at, head: scale(this.axis, this.angle), body: scale(axis, angle) }
  }

  private share(weight: number): Matrix {
    return weight === 1 ? this.full : rotation(this.axis, this.angle * weight, this.partial)
  }

  /** rest: the part's mesh in the head's frame. One that goes with the trunk alone stays the same while that stands still. */
  part(part: FigurePart, rest: Mesh): PosedPart {
    const { body, at } = this
    const last = lastOnTrunk.get(part)
    if (last?.rest === rest && sameNumbers(last.body, body) && sameNumbers(last.at, at)) return last.posed
    const posed = this.carriedPart(part, rest)
    if (part.headWeight.every((weight) => weight === 0)) lastOnTrunk.set(part, { rest, body, at, posed })
    return posed
  }

  /** Each list of it is made when it is first asked for. */
  private carriedPart(part: FigurePart, rest: Mesh): PosedPart {
    const { headWeight } = part
    const places = once(() => this.carried(rest.positions, headWeight, true))
    const normals = once(() => this.carried(rest.normals, headWeight, false))
    const combed = once(() => part.combed && this.carried(part.combed, headWeight, false))
    const coarse = once(() => {
      const vertices = coarseVertices(part)
      const weights = coarseHeadWeight(part)
      return {
        positions: this.carried(picked(rest.positions, vertices), weights, true),
        normals: this.carried(picked(rest.normals, vertices), weights, false),
      }
    })
    return {
      name: part.name,
      mesh: {
        get positions() {
          return places()
        },
        get normals() {
          return normals()
        },
        indices: part.mesh.indices,
      },
      rest,
      part,
      get coarse() {
        return coarse()
      },
      get combed() {
        return combed()
      },
      heightsAlong: (direction) => this.heightsAlong(direction, rest.positions, headWeight),
      pointAt: (vertex) => this.point(tripleAt(rest.positions, vertex), headWeight[vertex]),
    }
  }

  /** Every triple of a list, as its vertex follows the head: as a place, or as a direction. */
  private carried(from: Float32Array, headWeight: Float32Array, isPlace: boolean): Float32Array {
    const to = new Float32Array(from.length)
    const { ends, ways } = this.runsOf(headWeight)
    const share = isPlace ? 1 : 0
    for (let run = 0, v = 0; run < ends.length; run++) {
      const k = run * WAY
      const [x, y, z] = [share * ways[k + 9], share * ways[k + 10], share * ways[k + 11]]
      for (; v < ends[run]; v++) {
        const i = v * 3
        const a = from[i]
        const b = from[i + 1]
        const c = from[i + 2]
        to[i] = x + ways[k] * a + ways[k + 1] * b + ways[k + 2] * c
        to[i + 1] = y + ways[k + 3] * a + ways[k + 4] * b + ways[k + 5] * c
        to[i + 2] = z + ways[k + 6] * a + ways[k + 7] * b + ways[k + 8] * c
      }
    }
    return to
  }

  private heightsAlong([x, y, z]: Vec3, from: Float32Array, headWeight: Float32Array): Float64Array {
    const heights = new Float64Array(headWeight.length)
    const { ends, ways } = this.runsOf(headWeight)
    for (let run = 0, v = 0; run < ends.length; run++) {
      const k = run * WAY
      const a = x * ways[k] + y * ways[k + 3] + z * ways[k + 6]
      const b = x * ways[k + 1] + y * ways[k + 4] + z * ways[k + 7]
      const c = x * ways[k + 2] + y * ways[k + 5] + z * ways[k + 8]
      const level = x * ways[k + 9] + y * ways[k + 10] + z * ways[k + 11]
      for (; v < ends[run]; v++) heights[v] = level + from[v * 3] * a + from[v * 3 + 1] * b + from[v * 3 + 2] * c
    }
    return heights
  }

  /** Neighbours mostly follow the head alike: up to which vertex, and rows of their turn with their way, twelve numbers a run. */
  private runsOf(headWeight: Float32Array): Runs {
    const known = this.runs.get(headWeight)
    if (known) return known
    const ends = runEnds(headWeight)
    const ways = new Float64Array(ends.length * WAY)
    const { body, pivot, at } = this
    for (let run = 0; run < ends.length; run++) {
      const turn = this.share(headWeight[ends[run] - 1])
      const k = run * WAY
      for (let row = 0; row < 3; row++) {
        const [a, b, c] = [body[3 * row], body[3 * row + 1], body[3 * row + 2]]
        let held = 0
        for (let column = 0; column < 3; column++) {
          const value = a * turn[column] + b * turn[3 + column] + c * turn[6 + column]
          ways[k + 3 * row + column] = value
          held += value * pivot[column]
        }
        ways[k + 9 + row] = at[row] + a * pivot[0] + b * pivot[1] + c * pivot[2] - held
      }
    }
    const runs = { ends, ways }
    this.runs.set(headWeight, runs)
    return runs
  }

  direction(d: Vec3, weight: number): Vec3 {
    return apply(this.body, apply(this.share(weight), d))
  }

  point(p: Vec3, weight: number): Vec3 {
    const onBody = add(this.pivot, apply(this.share(weight), subtract(p, this.pivot)))
    return add(this.at, apply(this.body, onBody))
  }

  /** The other way round: a point of the room in the head's frame. */
  inHead(p: Vec3): Vec3 {
    const onBody = applyBack(this.body, subtract(p, this.at))
    return add(this.pivot, applyBack(this.full, subtract(onBody, this.pivot)))
  }

  /** What the eyes look at, as the head sees it; left out: straight ahead. */
  gazeTarget(gaze: Gaze = AHEAD): { readonly at: Vec3 } | { readonly gaze: PosedGaze } {
    return 'atM' in gaze ? { at: this.inHead(gaze.atM) } : { gaze: { ...gaze, reached: true } }
  }

  lenses({ left, right, coated, pivot, axis }: LensPair): LensPair {
    const frameOf = ({ frame: { origin, x, y, z }, ...lens }: LensPair['left']): LensPair['left'] => ({
      ...lens,
      frame: {
        origin: this.point(origin, 1),
        x: this.direction(x, 1),
        y: this.direction(y, 1),
        z: this.direction(z, 1),
      },
    })
    return {
      left: frameOf(left),
      right: frameOf(right),
      coated,
      pivot: this.point(pivot, 1),
      axis: this.direction(axis, 1),
    }
  }

  landmark({ position, normal, headWeight }: Landmark): Landmark {
    return { position: this.point(position, headWeight), normal: this.direction(normal, headWeight), headWeight }
  }
}

const tripleAt = (list: Float32Array, i: number): Vec3 => [list[3 * i], list[3 * i + 1], list[3 * i + 2]]

function picked(from: Float32Array, vertices: Uint32Array): Float32Array {
  const to = new Float32Array(vertices.length * 3)
  for (let i = 0; i < vertices.length; i++) for (let k = 0; k < 3; k++) to[3 * i + k] = from[3 * vertices[i] + k]
  return to
}

/** Images of x, y and z: tilt about the nose first, then chin, then turn. */
function headColumns(turn: number, chin: number, tilt: number): [Vec3, Vec3, Vec3] {
  const moved = (v: Vec3) =>
    rotateAbout(rotateAbout(rotateAbout(v, [0, 0, 1], -tilt), [1, 0, 0], -chin), [0, 1, 0], turn)
  return [moved([1, 0, 0]), moved([0, 1, 0]), moved([0, 0, 1])]
}
