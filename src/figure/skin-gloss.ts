/**
 * How much rougher or smoother than the whole the film on the skin is from place to place: smooth and oily down the middle of the
 * face, duller on cheeks and neck, as faces have been measured region by region (Weyrich et al. 2006, Analysis of human faces using
 * a measurement-based skin reflectance model; figures from memory), and patchy over some millimetres, so that the edge of a highlight
 * is no clean line. Mean about 0 over the face.
 */

import { lazily } from './lazily'
import { valueNoise } from './sculpt/noise'
import { inNostril } from './sculpt/nose'
import { clamp01, mix, smoothStep } from './sculpt/solids'
import type { FigurePart } from './types'

const MM = 1000

/** To be added to the roughness r of the skin (α = r²). Place before any pose, mm; the same on both sides of the face. */
export function skinGlossOffset(signedX: number, y: number, z: number): number {
  const x = Math.abs(signedX)
  const patches =
    valueNoise(x * 0.11 + 5, y * 0.11, z * 0.11) + 0.4 * valueNoise(x * 0.27, y * 0.27 + 9, z * 0.27) - 0.7
  const middle = smoothStep(20, 8, x) * smoothStep(-50, -42, y)
  const forehead = smoothStep(48, 26, x) * smoothStep(12, 30, y)
  const smooth = z > -20 ? Math.max(middle, forehead) : 0
  // Over the bone the skin is thin and drawn tight, but drier than at the tip.
  const bridge = z > 0 ? smoothStep(14, 6, x) * smoothStep(-32, -22, y) * smoothStep(16, 8, y) : 0
  const lip = z > 0 ? 0.06 * smoothStep(24, 10, x) * smoothStep(-46, -51, y) * smoothStep(-62, -56, y) : 0
  const neck = smoothStep(-105, -135, y)
  return (
    mix(0.035, -0.03, clamp01(smooth)) + 0.045 * bridge + 0.1 * neck + lip + 0.2 * byNostril(x, y, z) + 0.009 * patches
  )
}

/** The rims of the nostrils have fine hairs and no film: a rim that shone would be a bright line under the nose. */
function byNostril(x: number, y: number, z: number): number {
  if (x > 16 || y > -38 || y < -52 || z < 16) return 0
  const { offWall, depth } = inNostril(x, y, z)
  return smoothStep(2.5, 0.8, offWall) * smoothStep(1, -0.5, depth)
}

/** The skin with that at each vertex: worked out when a file is read, it costs no bytes. */
export function withGloss(skin: FigurePart): FigurePart {
  const { positions: p } = skin.mesh
  const offset = (v: number) => skinGlossOffset(p[v * 3] * MM, p[v * 3 + 1] * MM, p[v * 3 + 2] * MM)
  return lazily(skin, { gloss: () => Float32Array.from({ length: p.length / 3 }, (_, v) => offset(v)) })
}
