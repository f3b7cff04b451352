import { FRAMING_NAMES, type FramingName, USUAL_SYNC_S } from '../../camera'
import { BALANCE_K } from '../../rig'
import { type Camera, framingOf, type Sitting, setBalanceFromCard, setCamera, setFraming } from '../../sitting'
import { quantities } from '../values'
import { shownBy } from './calibration-rows'
import { action, choice, number, type Row } from './model'

const OWN = 'own'

/** By name; choosing one sets distance, lens height and frame. */
export const framingRow = (sitting: Sitting): Row => {
  const now = framingOf(sitting)
  return choice('framing', {
    label: 'framing',
    value: now ?? OWN,
    choices: [...(now ? [] : [{ value: OWN, label: 'between names' }]), ...FRAMING_NAMES],
    change: (s, name) => (name === OWN ? s : setFraming(s, name as FramingName)),
  })
}

/** Width and height as held, mm. */
const FORMATS = [
  ['24 × 36 upright', 24, 36],
  ['36 × 24 level', 36, 24],
  ['16 × 24 upright', 16, 24],
  ['24 × 16 level', 24, 16],
  ['33 × 44 upright', 33, 44],
  ['44 × 33 level', 44, 33],
] as const

export const formatRow = ({ sensorWidthMm: w, sensorHeightMm: h }: Camera): Row => {
  const known = FORMATS.find(([, width, height]) => Math.abs(width - w) < 0.5 && Math.abs(height - h) < 0.5)?.[0]
  const own = `${w} × ${h}`
  return choice('format', {
    label: 'sensor',
    value: known ?? own,
    choices: [...(known ? [] : [own]), ...FORMATS.map(([name]) => name)],
    change: (sitting, name) => {
      const format = FORMATS.find(([other]) => other === name)
      return format ? setCamera(sitting, { sensorWidthMm: format[1], sensorHeightMm: format[2] }) : sitting
    },
  })
}

export const syncRow = ({ syncS }: Camera): Row =>
  number('sync', {
    label: 'sync',
    named: 'shortest time for flash',
    quantity: quantities.shutter,
    value: syncS ?? USUAL_SYNC_S,
    range: [0.0002, 1],
    usual: [0.002, 0.02],
    change: (sitting, value) => setCamera(sitting, { syncS: value }),
  })

/** White balance, fixed or read from a grey card at the near cheek; and how fast what moves goes. */
export const balanceRows = ({ balanceK, moverMps }: Camera): readonly Row[] => [
  number('balance', {
    label: 'balance',
    named: 'white balance',
    quantity: quantities.colourTemperature,
    value: balanceK ?? BALANCE_K,
    range: [3200, 7500],
    change: (sitting, value) => setCamera(sitting, { balanceK: value }),
  }),
  action('grey-card', {
    label: 'balance from a grey card',
    step: 'balance from a grey card',
    change: (sitting) => setBalanceFromCard(sitting, shownBy('camera.balance')),
  }),
  number('mover', {
    label: 'moves at',
    named: 'speed of what moves',
    quantity: quantities.plain('m/s', 0.1),
    value: moverMps ?? 1,
    range: [0.05, 20],
    usual: [0.1, 6],
    change: (sitting, value) => setCamera(sitting, { moverMps: value }),
  }),
]
