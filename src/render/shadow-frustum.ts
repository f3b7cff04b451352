import { add, basisAround, dot, length, normalize, scale, subtract, type Vec3 } from '../space'

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

/** A sphere around a cloud of points: centre of its box, farthest point. A few per cent wider than the smallest one. */
export function boundingSphere(clouds: readonly ArrayLike<number>[]): Sphere | null {
  const low = [Infinity, Infinity, Infinity]
  const high = [-Infinity, -Infinity, -Infinity]
  for (const cloud of clouds)
    for (let i = 0; i < cloud.length; i++) {
      low[i % 3] = Math.min(low[i % 3], cloud[i])
      high[i % 3] = Math.max(high[i % 3], cloud[i])
    }
  if (!(low[0] <= high[0])) return null
  const centre = scale(add(low as unknown as Vec3, high as unknown as Vec3), 0.5)
  let squared = 0
  for (const cloud of clouds)
    for (let i = 0; i < cloud.length; i += 3)
      squared = Math.max(
        squared,
        (cloud[i] - centre[0]) ** 2 + (cloud[i + 1] - centre[1]) ** 2 + (cloud[i + 2] - centre[2]) ** 2,
      )
  return { centre, radiusM: Math.sqrt(squared) * 1.001 + 1e-4 }
}
