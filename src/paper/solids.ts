import type { GearSolid } from '../gear'
import { add, addScaled, basisAround, normalize, scale, subtract, type Vec3 } from '../space'
import { convexHull, type Projection } from './outline'
import type { Point2 } from './types'

const STEPS = 24

/** Points on a circle in space. */
function circlePoints(centre: Vec3, normal: Vec3, radiusM: number, steps = STEPS): Vec3[] {
  const [u, v] = basisAround(normal)
  return Array.from({ length: steps }, (_, i) => {
    const angle = (2 * Math.PI * i) / steps
    return addScaled(addScaled(centre, u, radiusM * Math.cos(angle)), v, radiusM * Math.sin(angle))
  })
}

/** Every point that can lie on the outline of an opaque part of gear. */
export function solidPoints(solid: GearSolid): Vec3[] {
  switch (solid.kind) {
    case 'cylinder': {
      const axis = normalize(subtract(solid.to, solid.from))
      return [...circlePoints(solid.from, axis, solid.radiusM), ...circlePoints(solid.to, axis, solid.radiusM)]
    }
    case 'disc':
      return circlePoints(solid.centre, solid.normal, solid.radiusM)
    case 'rectangle': {
      const { centre, halfU, halfV } = solid.rect
      return [
        add(add(centre, halfU), halfV),
        subtract(add(centre, halfU), halfV),
        subtract(subtract(centre, halfU), halfV),
        add(subtract(centre, halfU), halfV),
      ]
    }
    case 'cap':
      return capPoints(solid)
  }
}

function capPoints(cap: GearSolid & { kind: 'cap' }): Vec3[] {
  const rimRadius = cap.diameterM / 2
  const sphere = (rimRadius * rimRadius + cap.depthM * cap.depthM) / (2 * cap.depthM)
  return Array.from({ length: 9 }, (_, ring) => (cap.depthM * ring) / 8).flatMap((height) => {
    const fromCentre = sphere - cap.depthM + height
    const radius = Math.sqrt(Math.max(0, sphere * sphere - fromCentre * fromCentre))
    return circlePoints(add(cap.rimCentre, scale(cap.axis, height)), cap.axis, radius)
  })
}

export const solidOutline = (solid: GearSolid, project: Projection): Point2[] =>
  convexHull(solidPoints(solid).map(project))
