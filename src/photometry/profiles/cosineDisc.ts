import { dot } from '../../space'
import type { Cylinder, Emission, Gate } from '../emission'
import type { Steradians } from '../units'
import { withIntegratedFlux } from './flux'
import { gatePass, OPEN } from './gates'
import { fluxOf, type Lamp } from './lamps'
import { DARK } from './lobes'
import { gaussLegendre } from './quadrature'
import { areaOf, pointInCells, pointOn } from './surfaces'

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
    luminance: ({ point, normal }, direction) => {
      const cosO = dot(normal, direction)
      return cosO > 0 ? beam * cosO ** (lamp.exponent - 1) * gatePass(gate, point, direction) : 0
    },
    sample: ([u, v]) => ({ ...shine, ...pointOn(surface, u, v) }),
    spread: ([u, v]) => ({ ...shine, ...pointInCells(base, u, v) }),
  }
  const known = flux ?? knownFlux(lamp, gate)
  return known === null ? withIntegratedFlux(base) : { ...base, flux: known }
}

function knownFlux(lamp: Lamp, gate: Gate): Steradians | null {
  if (gate.kind === 'open') return fluxOf(lamp)
  return gate.kind === 'honeycomb' ? gridFlux(lamp, gate) : null
}

/**
 * A round comb is the same at every place and all round, so Φ = 2π·I₀·∫ cosⁿθ·T(θ)·sinθ dθ; with tanθ = x/k, k the cells'
 * depth over width, T ends at x = 1, and sinθ dθ = cos³θ·x/k² dx.
 */
function gridFlux(lamp: Lamp, gate: Extract<Gate, { kind: 'honeycomb' }>): Steradians {
  const k = gate.depthOverWidth
  const share = gaussLegendre(32).reduce((sum, { x, weight }) => {
    const cosine = 1 / Math.hypot(1, x / k)
    const pass = gatePass(gate, [0, 0, 0], [(cosine * x) / k, 0, cosine])
    return sum + (weight * pass * cosine ** (lamp.exponent + 3) * x) / (k * k)
  }, 0)
  return 2 * Math.PI * lamp.axialIntensity * share
}
