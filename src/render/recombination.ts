import { type DisplayMode, exposureScale } from '../camera'
import type { Rig } from '../rig'
import type { Recombination } from './recombine'

/** What gives way so that the metered place keeps its exposure: all powers together, or the f-number. */
export interface ReExposure {
  /** Stops by which all sources together are raised. */
  readonly factorStops: number
  readonly fNumber: number
}

/**
 * How the layers are weighed. null: nothing is read yet, and all stays as set. solo: id of the only source shown.
 */
export function recombinationOf(
  rig: Rig,
  exposure: ReExposure | null,
  { solo = null, mode = 'plain' }: { readonly solo?: string | null; readonly mode?: DisplayMode } = {},
): Recombination {
  const gain = 2 ** (exposure?.factorStops ?? 0)
  return {
    weights: rig.sources.map((source) => ({
      sourceId: source.id,
      on: solo === null ? source.on : source.id === solo,
      factor: source.axialIntensity * gain,
      rgb: source.colour,
    })),
    exposure: exposureScale(rig.view.iso, exposure?.fNumber ?? rig.view.fNumber),
    mode,
  }
}
