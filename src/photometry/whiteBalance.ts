import type { Vec3 } from '../space'
import { type Chromaticity, chromaticityFromXyz, uv1960, WHITE, xyzFromChromaticity } from './chromaticity'
import { kelvinFromChromaticity, miredFromKelvin } from './colourTemperature'
import { DAYLIGHT_RANGE_K, daylightChromaticity } from './daylight'
import { apply3, invert3, type Matrix3 } from './matrix3'
import { planckianChromaticity } from './planck'
import { luminanceFromSrgb, srgbFromXyz, xyzFromSrgb } from './primaries'
import type { Kelvin, Rgb } from './units'

/** Temperatures of lamps that colourFromTemperature takes. */
export const LAMP_RANGE_K = [2000, 20000] as const
/** And of the camera's balance: with these no lamp in the range falls outside the sRGB primaries. */
export const BALANCE_RANGE_K = [3200, 7500] as const
/** Lamps up to here glow (Planck), from here on they are taken for daylight or flash tubes; between, mixed by mired. */
const GLOW_UP_TO_K: Kelvin = DAYLIGHT_RANGE_K[0]
const DAYLIGHT_FROM_K: Kelvin = 5000

/** Linear Bradford cone responses of XYZ [ICC] annex E. */
const BRADFORD: Matrix3 = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
]
const FROM_BRADFORD = invert3(BRADFORD)

/**
 * Chromaticity that a lamp of a colour temperature is taken to have. Filament lamps lie on the Planckian locus,
 * xenon tubes and daylight nearer to the daylight locus (0.005 greener in y), so the answer changes over between
 * 4000 and 5000 K in equal steps of mired, without a jump. Own choice, stated: a bare kelvin value leaves the
 * distance from the locus open.
 */
export function lampChromaticity(temperature: Kelvin): Chromaticity {
  if (temperature <= GLOW_UP_TO_K) return planckianChromaticity(temperature)
  if (temperature >= DAYLIGHT_FROM_K) return daylightChromaticity(temperature)
  const glow = planckianChromaticity(temperature)
  const day = daylightChromaticity(temperature)
  const start = miredFromKelvin(GLOW_UP_TO_K)
  const t = (start - miredFromKelvin(temperature)) / (start - miredFromKelvin(DAYLIGHT_FROM_K))
  return [glow[0] + (day[0] - glow[0]) * t, glow[1] + (day[1] - glow[1]) * t]
}

/** XYZ as seen under one white, carried to another: von Kries on Bradford's cones [ICC] annex E. */
function adaptXyz(xyz: Vec3, from: Vec3, to: Vec3): Vec3 {
  const [cones, seen, wanted] = [apply3(BRADFORD, xyz), apply3(BRADFORD, from), apply3(BRADFORD, to)]
  return apply3(FROM_BRADFORD, [
    (cones[0] * wanted[0]) / seen[0],
    (cones[1] * wanted[1]) / seen[1],
    (cones[2] * wanted[2]) / seen[2],
  ])
}

/**
 * Linear sRGB of a lamp in a picture balanced for another temperature; luminance 1, so colour never changes an
 * exposure. Equal temperatures give white, [1, 1, 1]. Throws outside LAMP_RANGE_K and BALANCE_RANGE_K; inside them no
 * component is negative (the least is 0.004, blue of 2000 K at 7500 K).
 */
export function colourFromTemperature(temperature: Kelvin, balance: Kelvin): Rgb {
  expectKelvin('temperature', temperature, LAMP_RANGE_K)
  expectKelvin('balance', balance, BALANCE_RANGE_K)
  if (temperature === balance) return [1, 1, 1]
  const lamp = xyzFromChromaticity(lampChromaticity(temperature))
  const white = xyzFromChromaticity(lampChromaticity(balance))
  const rgb = srgbFromXyz(adaptXyz(lamp, white, xyzFromChromaticity(WHITE.D65_SRGB)))
  const y = luminanceFromSrgb(rgb)
  return [rgb[0] / y, rgb[1] / y, rgb[2] / y]
}

/** What a picture balanced for one temperature would record if it were balanced for another; linear sRGB. Throws as above. */
export function balancedFor(rgb: Rgb, from: Kelvin, to: Kelvin): Rgb {
  for (const kelvin of [from, to]) expectKelvin('balance', kelvin, BALANCE_RANGE_K)
  const neutral = xyzFromChromaticity(WHITE.D65_SRGB)
  const white = (kelvin: Kelvin) => xyzFromChromaticity(lampChromaticity(kelvin))
  const scene = adaptXyz(xyzFromSrgb(rgb), neutral, white(from))
  return srgbFromXyz(adaptXyz(scene, white(to), neutral))
}

/** CIE 1931 x, y of the light that a picture balanced for a temperature records as a linear sRGB triple. Throws as above. */
export function chromaticityAtBalance(rgb: Rgb, balance: Kelvin): Chromaticity {
  expectKelvin('balance', balance, BALANCE_RANGE_K)
  const white = xyzFromChromaticity(lampChromaticity(balance))
  return chromaticityFromXyz(adaptXyz(xyzFromSrgb(rgb), xyzFromChromaticity(WHITE.D65_SRGB), white))
}

/** Light farther than this from the Planckian locus in CIE 1960 u, v has no correlated colour temperature [CIE15]. */
const FARTHEST_UV = 0.05

/** Correlated colour temperature [McCamy92], good to 1 mired from 2500 to 9500 K and to 5 from 2000 to 15 000; null: it has none. */
export function correlatedKelvin(xy: Chromaticity): Kelvin | null {
  const kelvin = kelvinFromChromaticity(xy)
  if (!(kelvin >= 1000 && kelvin <= 40000)) return null
  const [u, v] = uv1960(xy)
  const [locusU, locusV] = uv1960(planckianChromaticity(kelvin))
  return Math.hypot(u - locusU, v - locusV) > FARTHEST_UV ? null : kelvin
}

function expectKelvin(name: string, kelvin: Kelvin, [least, most]: readonly [number, number]): void {
  if (!(kelvin >= least && kelvin <= most))
    throw new Error(`photometry.colourFromTemperature: ${name}: expected ${least} to ${most} K, got ${kelvin} K`)
}
