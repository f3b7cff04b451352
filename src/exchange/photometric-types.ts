import type { IntensityTable } from '../photometry'
import { PhotometricFileError } from './photometric'

const DEG = Math.PI / 180
const STEP_DEG = 2.5

/**
 * Types A and B measure about a beam that lies level: type A turns about the vertical and then tips (V up from the level, H
 * round), type B tips about the level and then turns. From memory: LM-63. Here the beam becomes the axis, and the intensities
 * are asked anew in planes round it, 2.5° apart. One half given: the other is alike.
 */
export function fromCrossAngles(
  type: 'A' | 'B',
  across: readonly number[],
  up: readonly number[],
  candela: readonly (readonly number[])[],
): IntensityTable {
  if (across.length < 2 || up.length < 2)
    throw new PhotometricFileError(
      'the table',
      `at least two angles each way in type ${type}`,
      `${across.length} × ${up.length}`,
    )
  const steps = (end: number) => Array.from({ length: end / STEP_DEG + 1 }, (_, i) => i * STEP_DEG)
  const anglesDeg = steps(180)
  const planesDeg = steps(360)
  const at = (x: number, y: number, z: number): number => {
    const [h, v] =
      type === 'A'
        ? [Math.atan2(x, z) / DEG, Math.asin(clamp(y)) / DEG]
        : [Math.asin(clamp(x)) / DEG, Math.atan2(y, z) / DEG]
    return crossValue(across, up, candela, h, v)
  }
  return {
    planesDeg,
    anglesDeg,
    candela: planesDeg.map((plane) =>
      anglesDeg.map((angle) => {
        const s = Math.sin(angle * DEG)
        return at(s * Math.cos(plane * DEG), s * Math.sin(plane * DEG), Math.cos(angle * DEG))
      }),
    ),
  }
}

const clamp = (value: number): number => Math.max(-1, Math.min(1, value))

/** Linear in both angles, a half that was not measured as the other one, nothing beyond. */
function crossValue(
  across: readonly number[],
  up: readonly number[],
  candela: readonly (readonly number[])[],
  h: number,
  v: number,
): number {
  const i = place(across, across[0]! >= 0 ? Math.abs(h) : h)
  const j = place(up, up[0]! >= 0 ? Math.abs(v) : v)
  if (!i || !j) return 0
  const row = (k: number) => candela[k]![j.at]! + j.share * (candela[k]![j.at + 1]! - candela[k]![j.at]!)
  return row(i.at) + i.share * (row(i.at + 1) - row(i.at))
}

function place(ascending: readonly number[], value: number): { readonly at: number; readonly share: number } | null {
  const last = ascending.length - 1
  if (value < ascending[0]! - 1e-9 || value > ascending[last]! + 1e-9) return null
  let at = 0
  while (at < last - 1 && ascending[at + 1]! <= value) at++
  return { at, share: clamp((value - ascending[at]!) / (ascending[at + 1]! - ascending[at]!)) }
}
