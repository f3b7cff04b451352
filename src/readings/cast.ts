import {
  chromaticityAtBalance,
  chromaticityFromXyz,
  correlatedKelvin,
  type Kelvin,
  miredShift,
  type Rgb,
  ratioFromStops,
  xyzFromChromaticity,
} from '../photometry'
import { BALANCE_K, modellingAfter } from '../rig'
import { add, scale, type Vec3 } from '../space'
import { BANDS, LAMP_MIRED } from './bands'
import { burnsOn } from './burns-on'
import type { PlaceLight } from './light-table'
import { absent, type ReadingParts, reading } from './reading'
import { cheekName, farCheekOf, powerFactor, type Stage, skinProbe, towardsLight } from './stage'
import type { Band, Reading } from './types'
import { figure, signed } from './words'

/** Of two lamps under 5 mired (150 K at 5500) nobody minds, from 10 (300 K) it is noticed: trade habit, no source. */
const [MINDED_MIRED, NOTICED_MIRED] = [5, 10]
/** How well a share is known, stops. */
const SHARE_STOPS = BANDS.ratio.plusMinus

const FORMULA = '10⁶/T of all light − 10⁶/T of the flash alone'
const SOURCE = 'CIE 15 for colour temperature, by McCamy 1992'

/** By how much what burns on colours the picture: in a frame without flash, and at both cheeks beside it. None without both. */
export function castReadings(stage: Stage): readonly Reading[] {
  const { key, table } = stage
  if (!key) return []
  const probe = towardsLight(stage, key)
  const near = table.at('nearCheek.disc.light', probe, 'disc')
  const [steady, flash] = [mixOf(stage, near, true), mixOf(stage, near, false)]
  if (!(total(steady) > 0 && total(flash) > 0)) return []
  const cheek = farCheekOf(stage, key)
  const skin = skinProbe(stage, cheek)
  const far = table.at(`skin.${cheek}`, skin, 'disc')
  const nearPlace = { name: 'near cheek', at: probe.point }
  return [
    castReading(
      { id: 'camera.cast.blackFrame', place: nearPlace },
      { all: steady, flash, share: 1 },
      (cast, kelvin) =>
        `is the colour of a frame without flash against the flash, ${kelvin}, where little flash falls${cast}.`,
    ),
    castReading(
      { id: 'camera.cast.near', place: nearPlace },
      { all: add(steady, flash), flash },
      (cast) => `is the cast of what burns on beside the flash, at the near cheek${cast}.`,
    ),
    castReading(
      { id: 'camera.cast.far', place: { name: cheekName(stage, cheek), at: skin.point } },
      { all: add(mixOf(stage, far, true), mixOf(stage, far, false)), flash: mixOf(stage, far, false) },
      (cast) => `is the cast of what burns on beside the flash, at the far cheek${cast}.`,
    ),
  ]
}

/** What the key's modelling lamp, left on, does to the colour of its flash. */
export function modellingCast(stage: Stage): readonly Reading[] {
  const { key, sitting } = stage
  if (!key?.modelling) return []
  const factor = powerFactor(stage)
  const lamp = shining(stage, key.modelling.colour, modellingAfter(key.modelling, factor) * sitting.camera.shutterS)
  const flash = shining(stage, key.colour, key.axialIntensity * factor)
  const place = { name: key.letter, at: key.remote ? key.remote.markM : key.frame.origin }
  return [
    castReading(
      { id: 'modelling.cast', place },
      { all: add(lamp, flash), flash },
      (cast) => `is the cast of ${key.letter}'s modelling lamp, left on beside its flash at the set shutter${cast}.`,
    ),
  ]
}

/** All the light, the flash in it, and the share of what tints. */
interface Mix {
  /** CIE XYZ, Y in lx·s. */
  readonly all: Vec3
  readonly flash: Vec3
  readonly share?: number
}

function castReading(
  at: Pick<ReadingParts, 'id' | 'place'>,
  { all, flash, share = 1 - total(flash) / total(all) }: Mix,
  sentence: (cast: string, kelvin: string) => string,
): Reading {
  const [mixed, alone] = [kelvinOf(all), kelvinOf(flash)]
  if (mixed === null || alone === null)
    return absent({
      ...at,
      formula: FORMULA,
      source: SOURCE,
      sentence: !(total(flash) > 0)
        ? 'no flash falls here: there is nothing to be tinted.'
        : 'this light is so far from any lamp without a gel that it has no colour temperature: judge it in the picture.',
    })
  const mired = miredShift(alone, mixed)
  return reading({
    ...at,
    value: mired,
    unit: 'mired',
    text: signed(mired, 0),
    band: bandOf(mired, share),
    sentence: sentence(castWords(mired), `${figure(mixed)} K against ${figure(alone)} K`),
    why: { formula: FORMULA, filled: `10⁶/${figure(mixed)} K − 10⁶/${figure(alone)} K`, source: SOURCE },
  })
}

function castWords(mired: number): string {
  const size = Math.abs(mired)
  if (size < MINDED_MIRED) return ': nobody sees it'
  return `: ${mired > 0 ? 'warmer' : 'cooler'}, ${size < NOTICED_MIRED ? 'hardly to be seen' : 'to be seen'}`
}

/** Of the share that tints: how well its colour and the flash's are known, and how much there is of it. */
function bandOf(mired: number, share: number): Band {
  const byShare = (1 - share) * Math.log(ratioFromStops(SHARE_STOPS)) * mired
  const plusMinus = Math.max(1, Math.round(Math.hypot(Math.SQRT2 * LAMP_MIRED * share, byShare)))
  return { plusMinus, unit: 'mired', basis: 'guessed' }
}

const kelvinOf = (light: Vec3): Kelvin | null =>
  total(light) > 0 ? correlatedKelvin(chromaticityFromXyz(light)) : null

const mixOf = (stage: Stage, lights: readonly PlaceLight[], steady: boolean): Vec3 =>
  lights
    .filter(({ source }) => burnsOn(stage, source.id) === steady)
    .reduce<Vec3>(
      (sum, { source, direct, indirect }) => add(sum, shining(stage, source.colour, direct + (indirect ?? 0))),
      [0, 0, 0],
    )

/** XYZ of so much light, lx·s, of a colour as recorded at the set balance. */
const shining = ({ sitting }: Stage, colour: Rgb, h: number): Vec3 =>
  scale(xyzFromChromaticity(chromaticityAtBalance(colour, sitting.camera.balanceK ?? BALANCE_K)), h)
const total = ([, y]: Vec3): number => y
