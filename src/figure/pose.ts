import { add, type Mesh, radians, rotateAbout, scale, subtract, type Vec3 } from '../space'
import { coarseVertices } from './coarse'
import { eyeRotation, type Gaze, gazeDirection, type PosedGaze, reachedPoint, sightOf } from './gaze'
import type { LensPair } from './glasses/lens'
import { leanRotation, SEAT } from './lean'
import { lidsFollowing } from './lids'
import { apply, applyBack, axisAngle, type Matrix, product, rotation } from './rotation'
import type {
  Carriage,
  FigureAsset,
  FigurePart,
  Landmark,
  LandmarkName,
  PartName,
  Pose,
  PosedFigure,
  PosedPart,
} from './types'

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

const SIDES = ['Left', 'Right'] as const
type Side = (typeof SIDES)[number]

/** Both eyeballs in the head, turned to what they look at. */
class Eyes {
  readonly gaze: PosedGaze
  private readonly turned: Readonly<Record<Side, { readonly centre: Vec3; readonly by: Matrix }>>

  /** target: a point of the head's frame, on which both eyes meet; or a direction for both. */
  constructor(asset: FigureAsset, target: { readonly at: Vec3 } | { readonly gaze: PosedGaze }) {
    const reached = 'at' in target ? reachedPoint(target.at) : null
    this.gaze = reached?.gaze ?? (target as { gaze: PosedGaze }).gaze
    const ball = (side: Side) => {
      const centre = asset.landmarks[`eyeCentre${side}`].position
      return { centre, by: eyeRotation(reached ? sightOf(centre, reached.point) : gazeDirection(this.gaze)) }
    }
    this.turned = { Left: ball('Left'), Right: ball('Right') }
  }

  landmark(name: string, place: Landmark): Landmark {
    const side = SIDES.find((one) => name === `pupil${one}`)
    if (!side) return place
    const { centre, by } = this.turned[side]
    const position = add(centre, apply(by, subtract(place.position, centre)))
    return { ...place, position, normal: apply(by, place.normal) }
  }

  /** The part's mesh in the head, eyes turned and lids with them. */
  part({ name, mesh }: FigurePart): FigurePart['mesh'] {
    if (name === 'skin')
      return lidsFollowing(mesh, [this.turned.Left.centre, this.turned.Right.centre], this.gaze.upDeg)
    const side = EYE_PARTS[name]
    if (!side) return mesh
    const { centre, by } = this.turned[side]
    const known = lastEyes.get(mesh)
    if (known && by.every((value, i) => value === known.by[i])) return known.turned
    const turned = {
      ...mesh,
      positions: turnedAbout(centre, by, mesh.positions),
      normals: turnedAbout([0, 0, 0], by, mesh.normals),
    }
    lastEyes.set(mesh, { by, turned })
    return turned
  }
}

/** The last gaze of each eyeball, which most poses leave as it was. */
const lastEyes = new WeakMap<Mesh, { readonly by: Matrix; readonly turned: Mesh }>()
const EYE_PARTS: Partial<Record<PartName, Side>> = { eyeLeft: 'Left', eyeRight: 'Right' }

/** Every triple of a list. */
function turnedAbout([cx, cy, cz]: Vec3, m: Matrix, from: Float32Array): Float32Array {
  const to = new Float32Array(from.length)
  for (let i = 0; i < from.length; i += 3) {
    const p = apply(m, [from[i] - cx, from[i + 1] - cy, from[i + 2] - cz])
    to[i] = cx + p[0]
    to[i + 1] = cy + p[1]
    to[i + 2] = cz + p[2]
  }
  return to
}

class Posing {
  private readonly body: Matrix
  private readonly axis: Vec3
  private readonly angle: number
  private readonly at: Vec3
  private readonly full: Matrix
  private readonly partial = new Float64Array(9)

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

  /** rest: the part's mesh in the head's frame. Each list of the posed one is made when it is first asked for. */
  part(part: FigurePart, rest: Mesh): PosedPart {
    const { headWeight } = part
    const places = once(() => this.carried(rest.positions, headWeight, true))
    const normals = once(() => this.carried(rest.normals, headWeight, false))
    const combed = once(() => part.combed && this.carried(part.combed, headWeight, false))
    const coarse = once(() => {
      const vertices = coarseVertices(part)
      const weights = Float32Array.from(vertices, (vertex) => headWeight[vertex])
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
    }
  }

  /** Every triple of a list, as its vertex follows the head: as a place, or as a direction. Neighbours mostly follow alike. */
  private carried(from: Float32Array, headWeight: Float32Array, isPlace: boolean): Float32Array {
    const to = new Float32Array(from.length)
    let weight = Number.NaN
    let m = this.body
    let [x, y, z]: Vec3 = [0, 0, 0]
    for (let v = 0; v < headWeight.length; v++) {
      if (headWeight[v] !== weight) {
        weight = headWeight[v]
        m = product(this.body, this.share(weight))
        if (isPlace) [x, y, z] = this.point([0, 0, 0], weight)
      }
      const i = v * 3
      const [a, b, c] = [from[i], from[i + 1], from[i + 2]]
      to[i] = x + m[0] * a + m[1] * b + m[2] * c
      to[i + 1] = y + m[3] * a + m[4] * b + m[5] * c
      to[i + 2] = z + m[6] * a + m[7] * b + m[8] * c
    }
    return to
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

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null
  return () => {
    made ??= { value: make() }
    return made.value
  }
}

function picked(from: Float32Array, vertices: Uint32Array): Float32Array {
  const to = new Float32Array(vertices.length * 3)
  vertices.forEach((vertex, i) => {
    for (let k = 0; k < 3; k++) to[3 * i + k] = from[3 * vertex + k]
  })
  return to
}

/** Images of x, y and z: tilt about the nose first, then chin, then turn. */
function headColumns(turn: number, chin: number, tilt: number): [Vec3, Vec3, Vec3] {
  const moved = (v: Vec3) =>
    rotateAbout(rotateAbout(rotateAbout(v, [0, 0, 1], -tilt), [1, 0, 0], -chin), [0, 1, 0], turn)
  return [moved([1, 0, 0]), moved([0, 1, 0]), moved([0, 0, 1])]
}
