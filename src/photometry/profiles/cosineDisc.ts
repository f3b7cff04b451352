import type { Cylinder, Emission, Gate } from '../emission'
import type { Steradians } from '../units'
import { withIntegratedFlux } from './flux'
import { gatePass, OPEN } from './gates'
import { fluxOf, type Lamp } from './lamps'
import { DARK, luminanceOf } from './lobes'
import { areaOf, pointOn } from './surfaces'

export interface CosineDisc extends Lamp {
  readonly gate?: Gate
  readonly blockers?: readonly Cylinder[]
  /** Where it is known: light past a canopy is the lamp's flux less what lands. */
  readonly flux?: Steradians
}

/** A round opening with I = I₀cosⁿθ·gate, evenly bright: L = I₀cosⁿ⁻¹θ/A. Dishes, grids, snoots, and the light past a canopy. */
export function cosineDisc({ gate = OPEN, blockers = [], flux, ...lamp }: CosineDisc): Emission {
  const surface = { shape: 'disc', radiusM: lamp.radiusM } as const
  const beam = lamp.axialIntensity / areaOf(surface)
  const shine = { ...DARK, beam, beamExponent: lamp.exponent }
  const base: Omit<Emission, 'flux'> = {
    profile: 'cosine-disc',
    surface,
    gate,
    blockers,
    at: (u, v) => pointOn(surface, u, v),
    luminance: (at, direction) => luminanceOf({ ...shine, ...at }, direction) * gatePass(gate, at.point, direction),
    sample: ([u, v]) => ({ ...shine, ...pointOn(surface, u, v) }),
  }
  const known = flux ?? (gate.kind === 'open' ? fluxOf(lamp) : null)
  return known === null ? withIntegratedFlux(base) : { ...base, flux: known }
}
