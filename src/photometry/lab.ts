import type { Vec3 } from '../space'
import { WHITE, xyzFromChromaticity } from './chromaticity'
import { srgbFromXyz, xyzFromSrgb } from './primaries'
import { linearFromSrgb } from './srgb'
import type { Rgb } from './units'

/** CIE 1976 L*a*b* [CIE15] §8.2.1, with the exact fractions (6/29)³ = 216/24389 and (29/3)³ = 24389/27. */
const LINEAR_BELOW = 216 / 24389
const SLOPE = 24389 / 27

/** L* of luminance factor Y: 0 to 100. */
export const lightnessFromLuminance = (y: number): number => (y > LINEAR_BELOW ? 116 * Math.cbrt(y) - 16 : SLOPE * y)

export const luminanceFromLightness = (lightness: number): number =>
  lightness > 8 ? ((lightness + 16) / 116) ** 3 : lightness / SLOPE

/** f of the standard, as (L* + 16)/116 of each ratio to white. */
const response = (ratio: number): number => (lightnessFromLuminance(ratio) + 16) / 116

/** [L*, a*, b*] of XYZ against a white, both with Y = 1 for white. */
function labFromXyz(xyz: Vec3, white: Vec3): Vec3 {
  const [x, y, z] = [response(xyz[0] / white[0]), response(xyz[1] / white[1]), response(xyz[2] / white[2])]
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)]
}

/** L*a*b* under D65 to linear sRGB: the standard's equations turned round. Luminance factor of a white surface: 1. */
export function linearFromLab([lightness, a, b]: Vec3): Rgb {
  const white = xyzFromChromaticity(WHITE.D65_SRGB)
  return srgbFromXyz([
    white[0] * luminanceFromLightness(lightness + (116 * a) / 500),
    white[1] * luminanceFromLightness(lightness),
    white[2] * luminanceFromLightness(lightness - (116 * b) / 200),
  ])
}

/** Of an 8-bit sRGB colour, '#rrggbb', against D65. Throws on anything else. */
export function labFromHex(hex: string): Vec3 {
  const linear = linearFromHex(hex)
  return labFromXyz(xyzFromSrgb(linear), xyzFromChromaticity(WHITE.D65_SRGB))
}

export function linearFromHex(hex: string): Rgb {
  if (!/^#[0-9a-f]{6}$/i.test(hex)) throw new Error(`photometry.linearFromHex: expected #rrggbb, got ${hex}`)
  const channel = (at: number): number => linearFromSrgb(Number.parseInt(hex.slice(at, at + 2), 16) / 255)
  return [channel(1), channel(3), channel(5)]
}
