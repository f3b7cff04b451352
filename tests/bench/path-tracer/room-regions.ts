import type { Rig } from '../../../src/rig'
import { addScaled, basisAround, dot, normalize, type RayCaster, sobol, subtract, type Vec3 } from '../../../src/space'
import { FIGURE, SET, type SeenPixel, seenPixels } from '../gpu/pixels'

/** lit: the sitter where the middle of the key reaches; shadow: where it does not; crevice: closed in by skin, whatever lights it. */
export const REGIONS = ['lit', 'shadow', 'set', 'crevice'] as const
export type RegionName = (typeof REGIONS)[number]

const LIFT_M = 1e-3
/** As tests/browser/agreement-places.ts has it: a tenth of the hemisphere closed within 3 cm. */
const NEAR_M = 0.03
const CLOSED_SHARE = 0.1
const RAYS = 64

/** The region of each pixel, outlines left out (null). crevices: of an earlier picture of this pose, as they cost most. */
export function roomRegions(rig: Rig, width: number, height: number, crevices: Map<number, boolean>) {
  const { caster, hits, regions } = seenPixels(rig, width, height)
  const key = rig.sources[0].frame.origin
  return hits.map((hit, i): RegionName | null => {
    if (!hit || regions.region[i] === 0) return null
    if (regions.region[i] === SET) return 'set'
    if (regions.region[i] !== FIGURE) return null
    const isCrevice = crevices.get(i) ?? isClosedIn(caster, hit)
    crevices.set(i, isCrevice)
    if (isCrevice) return 'crevice'
    const lifted = addScaled(hit.point, hit.normal, LIFT_M)
    return dot(subtract(key, lifted), hit.normal) > 0 && caster.visible(lifted, key) ? 'lit' : 'shadow'
  })
}

function isClosedIn(caster: RayCaster, { point, normal }: SeenPixel): boolean {
  const [x, y] = basisAround(normal)
  const from = addScaled(point, normal, LIFT_M)
  let near = 0
  for (let i = 0; i < RAYS; i++) {
    const [radius, angle] = [Math.sqrt(sobol(i, 0)), 2 * Math.PI * sobol(i, 1)]
    const aside: Vec3 = addScaled([0, 0, 0], x, radius * Math.cos(angle))
    const ray = normalize(
      addScaled(addScaled(aside, y, radius * Math.sin(angle)), normal, Math.sqrt(Math.max(1e-6, 1 - radius * radius))),
    )
    const hit = caster.nearest(from, ray)
    if (hit && hit.distance < NEAR_M) near++
  }
  return near > CLOSED_SHARE * RAYS
}
