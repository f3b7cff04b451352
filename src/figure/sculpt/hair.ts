import { spline } from './curves'
import * as data from './data/hair'
import { valueNoise } from './noise'
import { clamp01, type Field, mix, smoothStep } from './solids'

const hairline = spline(data.HAIRLINE)
/** Inner face of the shell, this deep under the skin, so that hair is a closed solid. */
const ROOT_DEPTH = 6

/** Millimetres inside the hairline, positive where hair grows; measured over the skin, not along y alone. */
export function insideHairline(x: number, y: number, z: number): number {
  const ax = Math.abs(x)
  const back = z - data.SKULL_AXIS_Z
  const azimuth = Math.atan2(ax, back)
  const slope = (hairline(azimuth + 0.02) - hairline(azimuth - 0.02)) / 0.04 / Math.max(30, Math.hypot(ax, back))
  const ragged =
    (valueNoise(x * 0.11 + 3, y * 0.09, z * 0.11) - 0.5) * 5 + (valueNoise(x * 0.4, y * 0.2, z * 0.4) - 0.5) * 2
  return (y - hairline(azimuth)) / Math.sqrt(1 + slope * slope) + ragged
}

/** Angle of the strand through a point about the axis from forehead to nape, and how far along that axis it is. */
export function strandCoordinates(x: number, y: number, z: number): readonly [number, number] {
  const [y0, z0] = data.FRONT_POLE
  const dy = data.NAPE_POLE[0] - y0
  const dz = data.NAPE_POLE[1] - z0
  const size = Math.hypot(dy, dz)
  const along = ((y - y0) * dy + (z - z0) * dz) / size
  const up = (-(y - y0) * dz + (z - z0) * dy) / size
  const wave = (valueNoise(along * 0.022 + 9, x * 0.012, up * 0.012) - 0.5) * 0.5
  return [Math.atan2(x, up) + wave, along]
}

/** Locks: long along the strand, narrow across it. −1 to 1. */
function locks(x: number, y: number, z: number): number {
  const [angle, along] = strandCoordinates(x, y, z)
  const broad = valueNoise(angle * 7 + 40, along * 0.012, 1.5) - 0.5
  const narrow = valueNoise(angle * 17 + 40, along * 0.016, 7.5) - 0.5
  return 1.1 * broad + 0.9 * narrow
}

/** Full depth of hair over the skin: more on top and in front, close at the sides, thin at the nape and the sideburn. */
function fullDepth(x: number, y: number, z: number): number {
  const top = smoothStep(38, 104, y)
  const front = smoothStep(-85, -5, z) * smoothStep(50, 84, y)
  const sides = mix(2.6, 6.5, smoothStep(-20, 48, y))
  const nape = smoothStep(-40, 20, y) * smoothStep(-60, -120, z)
  return sides + 6 * top * (1 - 0.3 * smoothStep(26, 60, Math.abs(x))) + 3.5 * front + 4 * nape
}

/** Hair as a closed shell over the skull, rising out of the skin at the hairline without a step. */
export function hairField(base: Field): Field {
  return (x, y, z) => {
    const skull = base(x, y, z)
    if (skull > 40) return skull - 20
    if (skull < -20) return -skull - ROOT_DEPTH
    const edge = insideHairline(x, y, z)
    const depth = fullDepth(x, y, z)
    const rise = 12 + 18 * smoothStep(20, 70, y)
    const t = clamp01(edge / rise)
    const slope = (2 * depth) / rise
    const body = edge < 0 ? Math.max(-9, slope * edge) : depth * t * (2 - t)
    const surface = body + locks(x, y, z) * mix(0.4, 2.6, smoothStep(2, 10, depth)) * smoothStep(0, 0.7, t)
    return Math.max((skull - surface) * 0.85, -(skull + ROOT_DEPTH))
  }
}
