import { add, dot, normalize, radians, rotateAbout, subtract, type Vec3 } from '../space'
import type { FigureAsset, FigurePart, Landmark, LandmarkName, Pose, PosedFigure, PosedPart } from './types'

/** The body turns about the vertical through the middle of the neck and chest, head-local metres. */
const BODY_AXIS: Vec3 = [0, 0, -0.09]

/** Rows of a rotation, flat. */
type Matrix = Float64Array

/**
 * The figure in the room. Each vertex turns with the head by its headWeight: the body's turn first, then that share of the
 * turn from body to head about the head's pivot, along one axis, so the neck twists evenly and cannot tear.
 */
export function poseFigure(asset: FigureAsset, pose: Pose): PosedFigure {
  const posing = new Posing(asset.headPivot, pose)
  const landmarks = Object.fromEntries(
    Object.entries(asset.landmarks).map(([name, place]) => [name, posing.landmark(place)]),
  ) as Record<LandmarkName, Landmark>
  return {
    parts: asset.parts.map((part) => posing.part(part)),
    landmarks,
    noseDirection: posing.direction([0, 0, 1], 1),
    headUp: posing.direction([0, 1, 0], 1),
    eyeMidpoint: posing.point([0, 0, 0], 1),
  }
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
    const [bodyTurn, headTurn] = [radians(pose.bodyTurnDeg), radians(pose.headTurnDeg)]
    const head = headColumns(headTurn, radians(pose.chinDeg), radians(pose.headTiltDeg))
    const back = (v: Vec3) => rotateAbout(v, [0, 1, 0], -bodyTurn)
    const relative = axisAngle(head.map(back) as [Vec3, Vec3, Vec3])
    this.body = rotation([0, 1, 0], bodyTurn, new Float64Array(9))
    this.axis = relative.axis
    this.angle = relative.angle
    this.full = rotation(this.axis, this.angle, new Float64Array(9))
    this.at = add(pose.positionM, [0, pose.eyeHeightM, 0])
  }

  private share(weight: number): Matrix {
    return weight === 1 ? this.full : rotation(this.axis, this.angle * weight, this.partial)
  }

  part(part: FigurePart): PosedPart {
    const { mesh, headWeight } = part
    const positions = new Float32Array(mesh.positions.length)
    const normals = new Float32Array(mesh.normals.length)
    const [px, py, pz] = this.pivot
    const m = this.body
    const [ox, , oz] = BODY_AXIS
    const [tx, ty, tz] = this.at
    for (let v = 0; v < headWeight.length; v++) {
      const i = v * 3
      let x = mesh.positions[i]
      let y = mesh.positions[i + 1]
      let z = mesh.positions[i + 2]
      let nx = mesh.normals[i]
      let ny = mesh.normals[i + 1]
      let nz = mesh.normals[i + 2]
      if (headWeight[v] > 0) {
        const r = this.share(headWeight[v])
        const lx = x - px
        const ly = y - py
        const lz = z - pz
        x = px + r[0] * lx + r[1] * ly + r[2] * lz
        y = py + r[3] * lx + r[4] * ly + r[5] * lz
        z = pz + r[6] * lx + r[7] * ly + r[8] * lz
        const ax = nx
        const ay = ny
        const az = nz
        nx = r[0] * ax + r[1] * ay + r[2] * az
        ny = r[3] * ax + r[4] * ay + r[5] * az
        nz = r[6] * ax + r[7] * ay + r[8] * az
      }
      positions[i] = tx + ox + m[0] * (x - ox) + m[2] * (z - oz)
      positions[i + 1] = ty + y
      positions[i + 2] = tz + oz + m[6] * (x - ox) + m[8] * (z - oz)
      normals[i] = m[0] * nx + m[2] * nz
      normals[i + 1] = ny
      normals[i + 2] = m[6] * nx + m[8] * nz
    }
    return { name: part.name, mesh: { positions, normals, indices: mesh.indices }, part }
  }

  direction(d: Vec3, weight: number): Vec3 {
    return apply(this.body, apply(this.share(weight), d))
  }

  point(p: Vec3, weight: number): Vec3 {
    const onBody = add(this.pivot, apply(this.share(weight), subtract(p, this.pivot)))
    return add(this.at, add(BODY_AXIS, apply(this.body, subtract(onBody, BODY_AXIS))))
  }

  landmark({ position, normal, headWeight }: Landmark): Landmark {
    return { position: this.point(position, headWeight), normal: this.direction(normal, headWeight), headWeight }
  }
}

/** Images of x, y and z: tilt about the nose first, then chin, then turn. */
function headColumns(turn: number, chin: number, tilt: number): [Vec3, Vec3, Vec3] {
  const moved = (v: Vec3) =>
    rotateAbout(rotateAbout(rotateAbout(v, [0, 0, 1], -tilt), [1, 0, 0], -chin), [0, 1, 0], turn)
  return [moved([1, 0, 0]), moved([0, 1, 0]), moved([0, 0, 1])]
}

/** Axis and angle (0 to π) of the rotation that takes the axes to these columns. */
function axisAngle([x, y, z]: readonly [Vec3, Vec3, Vec3]): { readonly axis: Vec3; readonly angle: number } {
  const twist: Vec3 = [y[2] - z[1], z[0] - x[2], x[1] - y[0]]
  const sine = Math.hypot(...twist) / 2
  const cosine = (x[0] + y[1] + z[2] - 1) / 2
  if (sine > 1e-9) return { axis: normalize(twist), angle: Math.atan2(sine, cosine) }
  return cosine > 0 ? { axis: [0, 1, 0], angle: 0 } : { axis: halfTurnAxis(x, y, z), angle: Math.PI }
}

/** For half a turn R = 2aaᵀ − I: the column of R + I that is longest points along the axis. */
function halfTurnAxis(x: Vec3, y: Vec3, z: Vec3): Vec3 {
  const columns: Vec3[] = [add(x, [1, 0, 0]), add(y, [0, 1, 0]), add(z, [0, 0, 1])]
  return normalize(columns.reduce((a, b) => (dot(b, b) > dot(a, a) ? b : a)))
}

function rotation(axis: Vec3, angle: number, out: Matrix): Matrix {
  const [x, y, z] = axis
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  const d = 1 - c
  out[0] = c + x * x * d
  out[1] = x * y * d - z * s
  out[2] = x * z * d + y * s
  out[3] = y * x * d + z * s
  out[4] = c + y * y * d
  out[5] = y * z * d - x * s
  out[6] = z * x * d - y * s
  out[7] = z * y * d + x * s
  out[8] = c + z * z * d
  return out
}

const apply = (m: Matrix, v: Vec3): Vec3 => [
  m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
  m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
  m[6] * v[0] + m[7] * v[1] + m[8] * v[2],
]
