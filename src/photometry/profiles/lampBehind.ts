import { dot } from '../../space'
import type { Emission } from '../emission'
import type { Metres, Steradians } from '../units'
import { gatePass } from './gates'
import type { Lamp } from './lamps'
import { DARK } from './lobes'
import { discRule } from './quadrature'
import { areaOf, pointOn } from './surfaces'

export interface LampBehind {
  readonly lamp: Lamp
  /** From the lamp to the mouth, along the axis. */
  readonly lengthM: Metres
  readonly mouthRadiusM: Metres
}

/**
 * A lamp at the far end of a black tube, as its mouth shows it: luminance does not change along a ray (étendue), so the mouth
 * sends out, at every place and in every direction, what the lamp there behind it sends that way.
 */
export function lampBehind({ lamp, lengthM, mouthRadiusM }: LampBehind): Emission {
  const surface = { shape: 'disc', radiusM: mouthRadiusM } as const
  const gate = { kind: 'lamp-behind', zM: -lengthM, radiusM: lamp.radiusM } as const
  const beam = lamp.axialIntensity / (Math.PI * lamp.radiusM ** 2)
  const shine = { ...DARK, beam, beamExponent: lamp.exponent }
  return {
    profile: 'cosine-disc',
    surface,
    gate,
    blockers: [],
    at: (u, v) => pointOn(surface, u, v),
    luminance: ({ point, normal }, direction) => {
      const cosO = dot(normal, direction)
      return cosO > 0 ? beam * cosO ** (lamp.exponent - 1) * gatePass(gate, point, direction) : 0
    },
    sample: ([u, v]) => ({ ...shine, ...pointOn(surface, u, v) }),
    spread: ([u, v]) => ({ ...shine, ...pointOn(surface, u, v) }),
    flux: fluxThroughMouth(lamp, lengthM, areaOf(surface), mouthRadiusM),
  }
}

/** Φ = ∫∫ L·cos²θ/d² dA dA′ over lamp and mouth, with cosθ = l/d: smooth, so a few rings of each are enough. */
function fluxThroughMouth(lamp: Lamp, lengthM: Metres, mouthM2: number, mouthRadiusM: Metres): Steradians {
  const [lampNodes, mouthNodes] = [discRule(8, 1), discRule(8, 24)]
  let mean = 0
  for (const from of lampNodes)
    for (const to of mouthNodes) {
      const x = mouthRadiusM * to.x - lamp.radiusM * Math.hypot(from.x, from.y)
      const y = mouthRadiusM * to.y
      const squared = x * x + y * y + lengthM * lengthM
      mean += (from.weight * to.weight * (lengthM / Math.sqrt(squared)) ** (lamp.exponent + 1)) / squared
    }
  return lamp.axialIntensity * mean * mouthM2
}
