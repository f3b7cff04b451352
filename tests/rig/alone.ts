import type { Emission } from '../../src/photometry'
import type { RigSource } from '../../src/rig'

/** Records of shared/emission-values.json that are no light that a meter could read: shapes, shares and closed forms of the emission alone, and the spark of skin. */
export const UNMETERED = /^EMIT-(A-.*-EX|A-PHIIN|F|SSTAR|LAMPS|BACK|LIP|HC-T|BOX-T|BOX-INNER|BOX-FIT|PARA|SPARK)$/

/** Alone in the room, in its own frame; at 1 cd·s. */
export function sourceOf(emission: Emission): RigSource {
  const { surface } = emission
  const size = surface.shape === 'rectangle' ? surface : { widthM: widthOf(surface), heightM: widthOf(surface) }
  const frame = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const
  return {
    ...{ id: 'A', letter: 'A', role: 'key', on: true, frame, aim: [0, 0, 1], axialIntensity: 1, colour: [1, 1, 1] },
    emitters: [{ id: 'A.front', frame, emission, part: 'front' }],
    gear: [],
    litFace: { shape: surface.shape === 'rectangle' ? 'rectangle' : 'disc', ...size },
  }
}
function widthOf(surface: Exclude<Emission['surface'], { shape: 'rectangle' }>): number {
  if (surface.shape === 'disc') return 2 * surface.radiusM
  return surface.shape === 'cap' ? surface.diameterM : surface.widthM
}
