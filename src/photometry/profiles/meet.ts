import { addScaled, dot, scale, subtract, type Vec3 } from '../../space'
import type { LitSurface, SurfacePoint } from '../emission'
import { capRadius } from './segments'
import { areaOf } from './surfaces'

const UP: Vec3 = [0, 0, 1]

/**
 * Where a ray from a local place, along a local unit direction, meets a lit surface on its lit side. A cap may be met
 * twice, once on each side of its axis; what of that can be seen through its opening is the gate's to say.
 */
export function litPointsAlong(surface: LitSurface, from: Vec3, ray: Vec3): readonly SurfacePoint[] {
  if (surface.shape === 'cap') return onCap(surface, from, ray)
  if (ray[2] >= 0 || from[2] <= 0) return []
  const point = addScaled(from, ray, -from[2] / ray[2])
  return isInside(surface, point) ? [{ point, normal: UP, areaM2: areaOf(surface) }] : []
}

function isInside(surface: Exclude<LitSurface, { shape: 'cap' }>, [x, y]: Vec3): boolean {
  switch (surface.shape) {
    case 'disc':
      return x * x + y * y <= surface.radiusM ** 2
    case 'rectangle':
      return Math.abs(x) <= surface.widthM / 2 && Math.abs(y) <= surface.heightM / 2
    case 'octagon': {
      const [a, b] = [Math.abs(x), Math.abs(y)]
      return Math.max(a, b, (a + b) * Math.SQRT1_2) <= surface.widthM / 2
    }
  }
}

function onCap(surface: Extract<LitSurface, { shape: 'cap' }>, from: Vec3, ray: Vec3): SurfacePoint[] {
  const { diameterM, depthM, hollow } = surface
  const radius = capRadius(diameterM, depthM)
  const centre: Vec3 = [0, 0, hollow ? radius - depthM : -radius]
  const start = subtract(from, centre)
  const along = dot(start, ray)
  const squared = along * along - dot(start, start) + radius * radius
  if (squared < 0) return []
  const root = Math.sqrt(squared)
  return [-along - root, -along + root].flatMap((t) => {
    if (t <= 0) return []
    const point = addScaled(from, ray, t)
    const normal = scale(subtract(centre, point), (hollow ? 1 : -1) / radius)
    const isOnCap = hollow ? point[2] <= 0 : point[2] >= -depthM
    return isOnCap && dot(normal, ray) < 0 ? [{ point, normal, areaM2: areaOf(surface) }] : []
  })
}
