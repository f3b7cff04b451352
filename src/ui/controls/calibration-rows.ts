import { calibrateSource, forgetCalibration, type Sitting, type Source } from '../../sitting'
import { useDerivedNow } from '../derived'
import { fixed, quantities } from '../values'
import { action, type ControlContext, type FoldRow, fold, note, number } from './model'

/** An f-number that the page shows now; 0: none yet. */
export function shownBy(reading: string): number {
  const found = useDerivedNow.getState().read?.readings.find(({ id }) => id === reading)
  return typeof found?.value === 'number' ? found.value : 0
}

/** What the source was metered at: its dial in stops under full, and what was worked out for it before any calibration. */
interface Basis {
  readonly sitting: Sitting
  readonly powerStops: number
  readonly workedOut: number
}

/** Of the latest calibration. It shifts the powers that give way, so a reading typed anew must not go by the shifted ones. */
const latest = new Map<string, Basis>()

function basisOf(id: string, { sitting, exposure }: ControlContext): Basis {
  const before = latest.get(id)
  if (before && sameButCalibration(before.sitting, sitting, id)) return before
  const { letter, head } = sitting.sources.find((source) => source.id === id)!
  const dial = sitting.reExpose === 'powers' ? exposure?.perSourceStops[id] : undefined
  return {
    sitting,
    powerStops: dial ?? head.powerStops,
    workedOut: shownBy(`source.${letter}.uncalibrated`) || shownBy(`source.${letter}.alone`),
  }
}

/** Whether two sittings are one and the same record for record, the calibration of one source aside. */
function sameButCalibration(a: Sitting, b: Sitting, id: string): boolean {
  const { sources: before, ...restA } = a
  const { sources: after, ...restB } = b
  const bare = ({ calibration: _, ...source }: Source) => source
  return (
    sameFields(restA, restB) &&
    before.length === after.length &&
    before.every((one, i) => one === after[i] || (one.id === id && sameFields(bare(one), bare(after[i]!))))
  )
}

const sameFields = (a: object, b: object): boolean => {
  const [x, y] = [a, b].map((record) => new Map(Object.entries(record)))
  return x!.size === y!.size && [...x!].every(([name, value]) => Object.is(value, y!.get(name)))
}

const today = (): string => new Date().toISOString().slice(0, 10)

/** One real reading of the head with its modifier, from which all later ones follow. */
export function calibrationRows({ id, letter, head, calibration }: Source, context: ControlContext): FoldRow {
  const basis = basisOf(id, context)
  return fold('calibration', 'calibrate', [
    note(
      'how',
      `Fire ${letter} alone at ${quantities.powerOf(head).format(basis.powerStops, 'metres')}, disc to it at its near cheek, and type what your meter reads.`,
    ),
    number('real', {
      label: 'read',
      named: 'real reading alone',
      typedOnly: true,
      quantity: quantities.fNumber,
      value: calibration?.readFNumber ?? (basis.workedOut || 8),
      range: [0.5, 181],
      change: (sitting, readFNumber) => {
        const now = basisOf(id, { ...context, sitting })
        const calibrated = calibrateSource(sitting, id, { readFNumber, workedOut: now.workedOut, date: today() })
        latest.set(id, { ...now, sitting: calibrated })
        return calibrated
      },
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
