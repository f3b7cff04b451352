import { exposureScale } from '../../camera'
import type { Recombination } from '../../render'
import type { Rig } from '../../rig'

/**
 * How the layers are weighed: the powers as set, times one gain, through the camera's exposure. gain: what the powers
 * (or, which is the same to the picture, the f-number) give way by, so that the metered place stays where it was;
 * 1 for equal power. solo: id of the only source shown.
 */
export function recombinationOf(rig: Rig, solo: string | null, gain: number): Recombination {
  return {
    weights: rig.sources.map((source) => ({
      sourceId: source.id,
      on: solo === null ? source.on : source.id === solo,
      factor: source.axialIntensity * gain,
      rgb: source.colour,
    })),
    exposure: exposureScale(rig.view.iso, rig.view.fNumber),
    mode: 'plain',
  }
}
