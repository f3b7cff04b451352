import { calibrateSource, forgetCalibration, type Source } from '../../sitting'
import { useDerived } from '../derived'
import { fixed, quantities } from '../values'
import { action, type FoldRow, fold, note, number } from './model'

/** An f-number that the page shows now; 0: none yet. */
function shownBy(reading: string): number {
  const found = useDerived.getState().read?.readings.find(({ id }) => id === reading)
  return typeof found?.value === 'number' ? found.value : 0
}

/** What was worked out for the source alone, before any calibration. */
function workedOut(letter: string): number {
  return shownBy(`source.${letter}.uncalibrated`) || shownBy(`source.${letter}.alone`)
}

const today = (): string => new Date().toISOString().slice(0, 10)

/** One real reading of the head with its modifier, from which all later ones follow. */
export function calibrationRows({ id, letter, calibration }: Source): FoldRow {
  const now = shownBy(`source.${letter}.alone`)
  return fold('calibration', 'calibrate', [
    note(
      'how',
      `Fire ${letter} alone, disc to it at its near cheek, at the power that is shown, and type what your meter reads.`,
    ),
    number('real', {
      label: 'read',
      named: 'real reading alone',
      quantity: quantities.fNumber,
      value: now > 0 ? now : 8,
      range: [0.5, 181],
      usual: [1.4, 32],
      change: (sitting, readFNumber) =>
        calibrateSource(sitting, id, { readFNumber, workedOut: workedOut(letter), date: today() }),
    }),
    ...(calibration
      ? [
          note(
            'calibrated',
            `Calibrated ${calibration.date}: ${fixed(Math.abs(calibration.stops), 1)} stop ${calibration.stops < 0 ? 'less' : 'more'} than worked out.`,
          ),
          action('forget', {
            label: 'forget the calibration',
            step: `calibration of ${letter} forgotten`,
            change: (sitting) => forgetCalibration(sitting, id),
          }),
        ]
      : []),
  ])
}
