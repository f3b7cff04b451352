import { type Receptor, type Rgb, receptorResponse } from '../photometry'
import type { RigSource } from '../rig'
import { dot } from '../space'
import { type Arrival, arrivalsAt } from './arrivals'
import { litSources, type MeterScene, type Probe } from './scene'

/** Light of one source at a place. */
export interface SourceLight {
  readonly sourceId: string
  /** Per 1 cd·s of the head's axial intensity, 1/m². */
  readonly perCandela: number
  /** At the set power and colour: luminous exposure in linear sRGB bands, lx·s. */
  readonly rgb: Rgb
}

export interface DirectOptions {
  /** Default: the sources that are on. */
  readonly sources?: readonly RigSource[]
  /** false: as if nothing but each source's own dish and body stood in the way. */
  readonly shadowed?: boolean
}

/** What a receptor shows of a source's pieces, per 1 cd·s: E = Σ L·cosθ·dA/r² · response · visibility, 1/m². */
export function received(
  arrivals: readonly Arrival[],
  normal: Probe['normal'],
  receptor: Receptor,
  shadowed = true,
): number {
  let sum = 0
  for (const { direction, strength, visible } of arrivals)
    sum += strength * (shadowed ? visible : 1) * receptorResponse(receptor, dot(direction, normal))
  return sum
}

/** Share of a source's normal light that arrives unhidden, 0 to 1; null where it sends nothing this way. */
export function visibleShare(arrivals: readonly Arrival[]): number | null {
  let all = 0
  let seen = 0
  for (const { strength, visible } of arrivals) {
    all += strength
    seen += strength * visible
  }
  return all > 0 ? seen / all : null
}

/** Direct light at a place, source by source. */
export function directAt(
  scene: MeterScene,
  { point, normal }: Probe,
  receptor: Receptor,
  { sources = litSources(scene.rig), shadowed = true }: DirectOptions = {},
): readonly SourceLight[] {
  return sources.map((source) => {
    const perCandela = received(arrivalsAt(scene, source, point), normal, receptor, shadowed)
    return { sourceId: source.id, perCandela, rgb: scaledRgb(source.colour, perCandela * source.axialIntensity) }
  })
}

const scaledRgb = (colour: Rgb, k: number): Rgb => [colour[0] * k, colour[1] * k, colour[2] * k]
