/**
 * The yarn of the top: jersey is knitted from threads that are no two of one tone, in courses round the body. Twin of
 * src/render/shaders/yarn.glsl, which draws it. Sizes and tones by eye.
 */
import { smoothStep } from '../sculpt/solids'
import { latticeTilt, type Tilt } from '../skin-relief'

/** [along the course mm, up mm, tone]: amplitudes. Their seeds follow those of the skin's relief. */
const STREAKS = [
  [2.4, 0.8, 0.15],
  [5.5, 1.7, 0.06],
] as const
const FIRST_SEED = 4

/** Factor on the reflectance, mean 1. placeMm: before any pose. footprintMm: what a pixel takes in; narrower streaks fade out. */
export const yarnTone = ([x, y, z]: Tilt, footprintMm: number): number =>
  STREAKS.reduce((tone, [along, up, amplitude], i) => {
    const share = smoothStep(1, 2, up / footprintMm)
    return share === 0
      ? tone
      : tone + share * amplitude * latticeTilt([x / along, y / up, z / along], FIRST_SEED + i)[0]
  }, 1)
