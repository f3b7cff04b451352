import { dot } from '../../space'
import type { Emission, LitSurface } from '../emission'
import { fluxOfGrid, type IntensityGrid, type OpeningSide } from '../intensityGrid'
import { gatePass } from './gates'
import { DARK } from './lobes'
import { areaOf, pointInCells, pointOn } from './surfaces'

export interface IntensityLamp {
  /** The luminous opening. */
  readonly surface: Extract<LitSurface, { shape: 'rectangle' | 'disc' }>
  readonly grid: IntensityGrid
  /** The half of the directions that this face sends out. */
  readonly side: OpeningSide
}

/**
 * One side of a measured luminaire, per candela of its brightest direction. Near field: its opening is evenly bright, and every
 * place of it shines as the table says, L = I/(A·cosθ). The table is the gate of a beam of cos⁰θ.
 */
export function intensityLamp({ surface, grid, side }: IntensityLamp): Emission {
  const beam = 1 / areaOf(surface)
  const gate = { kind: 'intensities', grid, side } as const
  const shine = { ...DARK, beam, beamExponent: 0 }
  const base: Emission = {
    profile: 'intensity-table',
    surface,
    gate,
    blockers: [],
    at: (u, v) => pointOn(surface, u, v),
    luminance: ({ point, normal }, direction) => {
      const cosO = dot(normal, direction)
      return cosO > 0 ? (beam * gatePass(gate, point, direction)) / cosO : 0
    },
    sample: ([u, v]) => ({ ...shine, ...pointOn(surface, u, v) }),
    spread: ([u, v]) => ({ ...shine, ...pointInCells(base, u, v) }),
    flux: fluxOfGrid(grid, side),
  }
  return base
}
