import { basisAround, sobol, type Vec3 } from '../../space'
import type { Emission } from '../emission'
import type { Steradians } from '../units'
import { gatePass } from './gates'
import { luminanceOf } from './lobes'
import { gaussLegendre } from './quadrature'

/**
 * ∫∫ L·cosθ dω dA by brute force, gate included, blockers not: points from the flux route, directions over the half space.
 * Within 0.2 % for all profiles here but a beam behind a narrow grid, which has its own integral.
 */
export function integrateFlux(emission: Omit<Emission, 'flux'>, points = 512, rings = 10, spokes = 12): Steradians {
  const nodes = gaussLegendre(rings)
  let flux = 0
  for (let i = 0; i < points; i++) {
    const lit = emission.sample([sobol(i, 0), sobol(i, 1), sobol(i, 2), sobol(i, 3)])
    if (!lit) continue
    const [x, y] = basisAround(lit.normal)
    // ∫ L cosθ dω = π·mean of L over the unit disc (Nusselt), so t = sin²θ is the even measure.
    for (const { x: t, weight } of nodes)
      for (let k = 0; k < spokes; k++) {
        const angle = (2 * Math.PI * (k + sobol(i, 4))) / spokes
        const [a, b, c] = [Math.sqrt(t) * Math.cos(angle), Math.sqrt(t) * Math.sin(angle), Math.sqrt(1 - t)]
        const direction = lit.normal.map((n, j) => n * c + x[j] * a + y[j] * b) as unknown as Vec3
        const pass = gatePass(emission.gate, lit.point, direction)
        if (pass > 0) flux += (pass * luminanceOf(lit, direction) * lit.areaM2 * Math.PI * weight) / spokes
      }
  }
  return flux / points
}

/** An emission whose flux has no closed form is integrated when first asked for; part of it: the rest is known. */
export function withIntegratedFlux(emission: Omit<Emission, 'flux'>, part = emission, known: Steradians = 0): Emission {
  let flux: Steradians | null = null
  return {
    ...emission,
    get flux() {
      flux ??= known + integrateFlux(part)
      return flux
    },
  }
}
