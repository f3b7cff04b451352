import type { Vec3 } from '../../space'
import { addScaled, dot, scale, subtract } from '../../space'
import type { Gate } from '../emission'
import type { Canopy } from './canopy'
import { OPEN } from './gates'
import { tenthAngle } from './lamps'
import { gaussLegendre } from './quadrature'
import { capRadius } from './segments'

type Shape = Pick<Canopy, 'diameterM' | 'depthM' | 'side' | 'shaftM' | 'lamp' | 'comb'>

export interface CanopyGeometry {
  readonly areaM2: number
  /** Share of the light leaving the inside that meets the inside again: F = 1 − A_open/A_cloth = h²/(D²/4 + h²). */
  readonly formFactor: number
  readonly gate: Gate
  readonly lampZ: number
  /** Sign of local z from the apex towards the lamp. */
  readonly lampSide: 1 | -1
  /** Where a ray from the lamp meets the cap. Unit ray. */
  meet(from: Vec3, ray: Vec3): Vec3 | null
  litNormal(point: Vec3): Vec3
}

export function canopyGeometry({ diameterM, depthM, side, shaftM, comb }: Shape): CanopyGeometry {
  const inside = side === 'inside'
  const lampSide = inside ? 1 : -1
  const apexZ = inside ? -depthM : 0
  const rimZ = inside ? 0 : -depthM
  const radius = capRadius(diameterM, depthM)
  const centre: Vec3 = [0, 0, apexZ + lampSide * radius]
  return {
    areaM2: 2 * Math.PI * radius * depthM,
    formFactor: selfFormFactor(diameterM, depthM),
    gate: inside ? openingGate(diameterM / 2, comb) : OPEN,
    lampZ: apexZ + lampSide * shaftM,
    lampSide,
    meet(from, ray) {
      const start = subtract(from, centre)
      const along = dot(start, ray)
      const root = along * along - dot(start, start) + radius * radius
      if (root < 0) return null
      // The far crossing: the cap lies beyond the centre of its opening.
      const t = Math.sqrt(root) - along
      const point = addScaled(from, ray, t)
      return t > 0 && (rimZ - point[2]) * lampSide >= 0 ? point : null
    },
    litNormal: (point) => scale(subtract(centre, point), (inside ? 1 : -1) / radius),
  }
}

const openingGate = (radiusM: number, comb: Shape['comb']): Gate =>
  comb ? { kind: 'combed-opening', zM: 0, radiusM, ...comb } : { kind: 'opening', zM: 0, radiusM }

export const selfFormFactor = (diameterM: number, depthM: number): number =>
  depthM ** 2 / (diameterM ** 2 / 4 + depthM ** 2)

/** A light on the axis at half the cap's radius from its apex leaves a mirror of that shape as a beam, m. */
export const focusOf = (diameterM: number, depthM: number): number => capRadius(diameterM, depthM) / 2

/** How wide the part of the cap is that the beam reaches until it has fallen to a tenth, m: at most the cap's own width. */
export function litDiameter({ diameterM, depthM, shaftM, lamp }: Omit<Shape, 'side'>): number {
  const radius = capRadius(diameterM, depthM)
  const angle = tenthAngle(lamp.exponent)
  // Of the lamp before the centre of the sphere, whose far side is met.
  const before = shaftM - radius
  const root = radius ** 2 - (before * Math.sin(angle)) ** 2
  if (root < 0) return diameterM
  const t = before * Math.cos(angle) + Math.sqrt(root)
  const fromApex = shaftM - t * Math.cos(angle)
  return fromApex >= depthM ? diameterM : 2 * t * Math.sin(angle)
}

/**
 * Share of the lamp's flux that lands on the cap. Of one lamp point and one azimuth it is 1 − cosⁿ⁺¹ of the angle to the rim;
 * the mean over azimuths and the lamp's disc is taken by quadrature. From behind the rim plane (s ≤ h) all of it lands.
 */
export function landingShare({ diameterM, depthM, shaftM, lamp }: Shape): number {
  const toRim = shaftM - depthM
  const rim = diameterM / 2
  const azimuths = 64
  let past = 0
  for (const node of gaussLegendre(4)) {
    const a = Math.sqrt(node.x) * lamp.radiusM
    for (let k = 0; k < azimuths; k++) {
      const angle = (2 * Math.PI * (k + 0.5)) / azimuths
      const reach = Math.sqrt(rim * rim - (a * Math.sin(angle)) ** 2) - a * Math.cos(angle)
      past += (node.weight * (Math.max(0, toRim) / Math.hypot(toRim, reach)) ** (lamp.exponent + 1)) / azimuths
    }
  }
  return 1 - past
}
