import { dot } from '../../space'
import type { Cylinder, Emission, Gate, LitSurface } from '../emission'
import { withIntegratedFlux } from './flux'
import { gatePass, OPEN } from './gates'
import { DARK } from './lobes'
import { areaOf, pointInCells, pointOn } from './surfaces'

export interface UniformSurface {
  readonly surface: LitSurface
  /** 1/m² per cd·s of the head. */
  readonly luminance: number
  readonly gate?: Gate
  readonly blockers?: readonly Cylinder[]
}

/** The same luminance everywhere and in all directions: flux π·L·A. A window, a scrim far from its lamp. */
export function uniformSurface({ surface, luminance, gate = OPEN, blockers = [] }: UniformSurface): Emission {
  const base: Omit<Emission, 'flux'> = {
    profile: 'uniform',
    surface,
    gate,
    blockers,
    at: (u, v) => pointOn(surface, u, v),
    luminance: ({ point, normal }, d) => (dot(normal, d) > 0 ? luminance * gatePass(gate, point, d) : 0),
    sample: ([u, v]) => ({ ...DARK, ...pointOn(surface, u, v), diffuse: luminance }),
    spread: ([u, v]) => ({ ...DARK, ...pointInCells(base, u, v), diffuse: luminance }),
  }
  return gate.kind === 'open' ? { ...base, flux: Math.PI * luminance * areaOf(surface) } : withIntegratedFlux(base)
}
