import { BARE_DOME_FLUX, uniformSurface } from '../photometry'
import { grey } from './cloths'
import { length, numberOf } from './fields'
import { ahead, asSolids, BODY_RADIUS_M } from './head'
import type { GearSolid } from './solids'
import type { BuiltModifier, Modifier, ModifierKind } from './types'

/** Frosted glass in other light: common practice, no source. */
const FROSTED = grey(0.3)

/** Lit face: the top of the glass. No dish: what that keeps for itself goes round the room too. */
export const bareBulb: ModifierKind = {
  id: 'bare-bulb',
  label: 'Bare bulb',
  fields: [
    length('diameterM', 'Glass dome', 0.09, [0.03, 0.2], [0.06, 0.12]),
    length('bodyM', 'Length of the head behind the glass', 0.3, [0, 0.6], [0.2, 0.45]),
  ],
  build: (modifier) => dome(modifier, BARE_DOME_FLUX, BODY_RADIUS_M, 'bare bulb'),
}

/**
 * An evenly bright half sphere on the end of a body. Seen from θ it shows the area πR²(1 + cosθ)/2, so that is how its light
 * goes round: I₀ = Φ/2π, half of it to the side, none straight back. The body's own shadow is cut out of that.
 */
export function dome(modifier: Modifier, flux: number, bodyRadiusM: number, name: string): BuiltModifier {
  const diameterM = numberOf(modifier, 'diameterM')
  const bodyM = numberOf(modifier, 'bodyM')
  const radiusM = diameterM / 2
  const glass: GearSolid = {
    ...{ kind: 'cap', rimCentre: [0, 0, -radiusM], axis: [0, 0, 1], diameterM, depthM: radiusM },
    albedo: FROSTED,
  }
  const body = { from: [0, 0, -radiusM], to: [0, 0, -radiusM - bodyM], radiusM: bodyRadiusM } as const
  const blockers = bodyM > 0 ? [body] : []
  const emission = uniformSurface({
    surface: { shape: 'cap', diameterM, depthM: radiusM, hollow: false },
    luminance: flux / (Math.PI * 2 * Math.PI * radiusM ** 2),
    blockers,
  })
  return {
    emitters: [{ id: 'glass', part: 'front', frame: ahead(0), emission, cloth: { solid: 0, side: 'front' } }],
    solids: [glass, ...asSolids(blockers)],
    litFace: { shape: 'disc', widthM: diameterM, heightM: diameterM },
    tint: [1, 1, 1],
    name,
  }
}
