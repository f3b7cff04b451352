import type { Vec3 } from '../space'
import { WHITE, xyzFromChromaticity } from './chromaticity'
import { apply3, invert3, type Matrix3 } from './matrix3'
import type { Rgb } from './units'

/** sRGB primaries [sRGB]: the same as ITU-R BT.709. */
const RED = xyzFromChromaticity([0.64, 0.33])
const GREEN = xyzFromChromaticity([0.3, 0.6])
const BLUE = xyzFromChromaticity([0.15, 0.06])

/**
 * Linear sRGB to XYZ. The columns are the primaries, each scaled so that equal parts of all three give the white of
 * the space with Y = 1: P·s = W. Not the standard's four-digit matrix, which is this one rounded.
 */
function matrixFromPrimaries(): Matrix3 {
  const columns: Matrix3 = [
    [RED[0], GREEN[0], BLUE[0]],
    [RED[1], GREEN[1], BLUE[1]],
    [RED[2], GREEN[2], BLUE[2]],
  ]
  const [r, g, b] = apply3(invert3(columns), xyzFromChromaticity(WHITE.D65_SRGB))
  const scaled = (row: Vec3): Vec3 => [row[0] * r, row[1] * g, row[2] * b]
  return [scaled(columns[0]), scaled(columns[1]), scaled(columns[2])]
}

export const XYZ_FROM_SRGB: Matrix3 = matrixFromPrimaries()
const SRGB_FROM_XYZ: Matrix3 = invert3(XYZ_FROM_SRGB)
/** Luminance of a linear sRGB triple: the middle row, 0.2126, 0.7152, 0.0722 when rounded. */
export const LUMINANCE_WEIGHTS: Rgb = XYZ_FROM_SRGB[1]

export const xyzFromSrgb = (linear: Rgb): Vec3 => apply3(XYZ_FROM_SRGB, linear)
/** Components may be negative: a colour outside the primaries' triangle. */
export const srgbFromXyz = (xyz: Vec3): Rgb => apply3(SRGB_FROM_XYZ, xyz)

export const luminanceFromSrgb = ([r, g, b]: Rgb): number =>
  LUMINANCE_WEIGHTS[0] * r + LUMINANCE_WEIGHTS[1] * g + LUMINANCE_WEIGHTS[2] * b
