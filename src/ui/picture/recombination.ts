import { exposureScale } from '../../camera'
import type { Recombination } from '../../render'
import type { Rig } from '../../rig'
import type { ShownExposure } from '../work/protocol'

/**
 * How the layers are weighed. shown: what gives way so that the metered place keeps its exposure, powers or f-number;
 * null: nothing is read yet, and all stays as set. solo: id of the only source shown.
 */
export function recombinationOf(rig: Rig, solo: string | null, shown: ShownExposure | null): Recombination {
  const gain = 2 ** (shown?.factorStops ?? 0)
  return {
    weights: rig.sources.map((source) => ({
      sourceId: source.id,
      on: solo === null ? source.on : source.id === solo,
      factor: source.axialIntensity * gain,
      rgb: source.colour,
    })),
    exposure: exposureScale(rig.view.iso, shown?.fNumber ?? rig.view.fNumber),
    mode: 'plain',
  }
}
