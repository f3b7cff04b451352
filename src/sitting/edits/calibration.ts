import { EditRefused } from '../problems'
import type { Sitting } from '../types'
import { changeThing, thingById } from './things'

export interface RealReading {
  /** What the meter showed for the source alone, disc to it at its near cheek. */
  readonly readFNumber: number
  /** What was worked out for the same without any calibration: `source.X.uncalibrated`, or `source.X.alone` where there is none. */
  readonly workedOut: number
  /** As the person writes it. */
  readonly date: string
}

/** Farther off than this, the reading was of something else, stops. */
const MOST_STOPS = 5

/**
 * Scales a head with its modifier to one real reading, N² being as the light: every later figure of the pair goes by it. Throws
 * EditRefused where the two are no f-numbers, or lie more than five stops apart.
 */
export function calibrateSource(sitting: Sitting, id: string, { readFNumber, workedOut, date }: RealReading): Sitting {
  const { letter } = thingById(sitting, 'sources', id)
  const refuse = (expected: string, got: string, advice: string): never => {
    throw new EditRefused({ rule: 'S15', path: `calibration of ${letter}`, expected, got, advice })
  }
  if (!(readFNumber >= 0.5 && readFNumber <= 181))
    refuse('an f-number from 0.5 to 181', String(readFNumber), 'Type what the meter shows, such as f/8.')
  if (!(workedOut > 0 && Number.isFinite(workedOut)))
    refuse(
      'a reading worked out for it alone',
      'none',
      'Wait for the readings, or switch it on and aim it at the face.',
    )
  const stops = 2 * Math.log2(readFNumber / workedOut)
  if (Math.abs(stops) > MOST_STOPS)
    refuse(
      `within ${MOST_STOPS} stops of what was worked out`,
      `${stops.toFixed(1)} stops`,
      'Check power, distance, ISO and that only this source fired.',
    )
  return changeThing(sitting, 'sources', id, { calibration: { stops, date, readFNumber } })
}

/** As worked out again. */
export const forgetCalibration = (sitting: Sitting, id: string): Sitting =>
  changeThing(sitting, 'sources', id, { calibration: undefined })
