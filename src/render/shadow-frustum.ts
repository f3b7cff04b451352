import { basisAround, dot, length, normalize, scale, subtract, type Vec3 } from '../space'

export interface Sphere {
  readonly centre: Vec3
  readonly radiusM: number
}

/** A square shadow map's view: rows of world → clip, and what turns its depth back into metres. */
export interface ShadowView {
  readonly rows: readonly [Row, Row, Row, Row]
  readonly nearM: number
  readonly farM: number
  readonly tangent: number
}
type Row = readonly [Vec3, number]

const WIDEST = (80 * Math.PI) / 180
const NEAREST_M = 0.004

/**
 * The narrowest square frustum from a lit point that holds the casters' bounding sphere. What falls outside is lit.
 * Inside the sphere, or so near that the half angle passes 80°, the frustum spreads 160° along the point's normal.
 */
export function fitShadowView(point: Vec3, normal: Vec3, casters: Sphere): ShadowView {
  const towards = subtract(casters.centre, point)
  const d = length(towards)
  const halfAngle = d > casters.radiusM ? Math.asin(casters.radiusM / d) : Math.PI / 2
  const wide = halfAngle > WIDEST
  const axis = wide ? normal : normalize(towards)
  const tangent = Math.tan(wide ? WIDEST : halfAngle)
  return perspective(point, axis, tangent, Math.max(NEAREST_M, wide ? 0 : d - casters.radiusM), d + casters.radiusM)
}

function perspective(point: Vec3, axis: Vec3, tangent: number, nearM: number, farM: number): ShadowView {
  const [x, y] = basisAround(axis)
  const span = farM - nearM
  const through = (direction: Vec3, gain: number, offset: number): Row => [
    scale(direction, gain),
    offset - gain * dot(direction, point),
  ]
  return {
    rows: [
      through(x, 1 / tangent, 0),
      through(y, 1 / tangent, 0),
      through(axis, (farM + nearM) / span, (-2 * farM * nearM) / span),
      through(axis, 1, 0),
    ],
    nearM,
    farM,
    tangent,
  }
}

/** A sphere around points, three numbers each: centre of its box, farthest point. A few per cent wider than the smallest one. */
export function boundingSphere(cloud: ArrayLike<number>): Sphere | null {
  if (cloud.length === 0) return null
  const [x, y, z] = [0, 1, 2].map((axis) => middleOf(cloud, axis))
  let squared = 0
  for (let i = 0; i < cloud.length; i += 3) {
    const [dx, dy, dz] = [cloud[i] - x, cloud[i + 1] - y, cloud[i + 2] - z]
    squared = Math.max(squared, dx * dx + dy * dy + dz * dz)
  }
  return { centre: [x, y, z], radiusM: Math.sqrt(squared) * 1.001 + 1e-4 }
}

function middleOf(cloud: ArrayLike<number>, axis: number): number {
  let low = Infinity
  let high = -Infinity
  for (let i = axis; i < cloud.length; i += 3) {
    if (cloud[i] < low) low = cloud[i]
    if (cloud[i] > high) high = cloud[i]
  }
  return (low + high) / 2
}
