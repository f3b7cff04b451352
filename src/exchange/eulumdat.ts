import { intensityFromPerKilolumen, wholeCircle } from '../photometry'
import {
  checkAscending,
  checkCounts,
  checkLit,
  checkSize,
  numberIn,
  PhotometricFileError,
  type PhotometricLamp,
} from './photometric'

const HIGHEST = 1e9
/** Lines of a set of lamps, and the direct ratios that follow the last set. */
const SET_LINES = 6
const RATIO_LINES = 10
const FIRST_SET = 27

/**
 * Reads a EULUMDAT file [Stockmar90]: one value a line, any of the five symmetries, cd per 1000 lm of its lamps. Throws
 * PhotometricFileError, which names the line.
 */
export function readEulumdat(text: string): PhotometricLamp {
  checkSize(text)
  const lines = text.split(/\r\n|\r|\n/)
  const number = (line: number, what: string, range: readonly [number, number], whole = false) =>
    numberIn(`line ${line}, ${what}`, lines[line - 1]?.replace(',', '.'), range, whole)
  const symmetry = number(3, 'symmetry', [0, 4], true)
  const planeCount = number(4, 'number of C planes', [1, 10_000], true)
  const angleCount = number(6, 'number of angles in a plane', [2, 10_000], true)
  checkCounts('lines 4 and 6', planeCount, angleCount)
  const length = number(16, 'length of the luminous area', [0, 100_000]) / 1000
  const width = number(17, 'width of the luminous area', [0, 100_000]) / 1000
  const factor = number(24, 'conversion factor', [1e-6, 1e6])
  const tilt = number(25, 'tilt', [-360, 360])
  const sets = number(26, 'number of sets of lamps', [1, 100], true)
  const fluxes = Array.from({ length: sets }, (_, i) =>
    number(FIRST_SET + i * SET_LINES + 2, 'flux of the lamps', [1e-6, HIGHEST]),
  )
  const flux = fluxes.reduce((sum, one) => sum + one, 0)
  const firstPlane = FIRST_SET + sets * SET_LINES + RATIO_LINES
  const list = (from: number, count: number, what: string, range: readonly [number, number]) =>
    Array.from({ length: count }, (_, i) => number(from + i, what, range))
  const allPlanes = list(firstPlane, planeCount, 'C plane', [0, 360])
  const angles = list(firstPlane + planeCount, angleCount, 'angle', [0, 180])
  checkAscending('angles', angles)
  const planes = measuredPlanes(symmetry, allPlanes)
  checkAscending('C planes', planes)
  const firstValue = firstPlane + planeCount + angleCount
  const candela = planes.map((_, i) =>
    list(firstValue + i * angleCount, angleCount, 'intensity', [0, HIGHEST]).map((value) =>
      intensityFromPerKilolumen(value * factor, flux),
    ),
  )
  checkLit('the table', candela)
  const whole = wholeCircle(planes, candela)
  if (!whole)
    throw new PhotometricFileError('C planes', WANTED[symmetry]!, `${planes[0]}° to ${planes[planes.length - 1]}°`)
  return {
    name: lines[8]?.trim().slice(0, 80) || 'measured lamp',
    table: { ...whole, anglesDeg: angles },
    opening:
      width === 0
        ? { shape: 'disc', widthM: length, lengthM: length }
        : // Its plane of 0° lies across what the format calls the length. From memory: [Stockmar90].
          { shape: 'rectangle', widthM: length, lengthM: width },
    lampFluxLm: flux,
    notes: tilt === 0 ? [] : [`It was measured tilted by ${tilt}°; that is left out.`],
  }
}

const WANTED: readonly string[] = [
  'planes from 0° round the circle',
  'one plane',
  'planes from 0° to 180°',
  'planes from 90° to 270°',
  'planes from 0° to 90°',
]

/** Which of the planes have intensities, by the code of symmetry: all, one, a half from 0° or from 90°, a quarter. */
function measuredPlanes(symmetry: number, planes: readonly number[]): readonly number[] {
  const within = (low: number, high: number) => planes.filter((plane) => plane >= low && plane <= high)
  const found = [
    () => planes,
    () => planes.slice(0, 1),
    () => within(0, 180),
    () => within(90, 270),
    () => within(0, 90),
  ]
  const chosen = found[symmetry]!()
  if (chosen.length > (symmetry === 1 ? 0 : 1)) return chosen
  throw new PhotometricFileError(
    'C planes',
    WANTED[symmetry]!,
    `${planes.length} of them, ${chosen.length} in that range`,
  )
}
