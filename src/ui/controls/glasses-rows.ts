import { FRAME_KINDS, type FrameKind, GLASSES_FIELDS, type GlassesFieldName } from '../../figure'
import { type Sitter, setGlasses } from '../../sitting'
import { quantities } from '../values'
import { choice, number, type Row } from './model'

const NONE = 'none'
const LENSES = [
  { value: 'plain', label: 'plain' },
  { value: 'coated', label: 'coated' },
] as const

/** What frame is worn, and of worn glasses their tilt, the curve of their lenses and whether these are coated. */
export function glassesRows({ id, glasses }: Sitter): Row[] {
  const field = (name: GlassesFieldName, label: string, quantity: typeof quantities.angle): Row => {
    const { range, usual, step, label: full } = GLASSES_FIELDS[name]
    return number(`glasses.${name}`, {
      label,
      named: full.toLowerCase(),
      quantity: { ...quantity, step },
      value: glasses![name],
      range,
      usual,
      change: (sitting, value) => setGlasses(sitting, id, { [name]: value }),
    })
  }
  const frame = choice('glasses', {
    label: 'glasses',
    value: glasses?.frame ?? NONE,
    choices: [NONE, ...FRAME_KINDS],
    change: (sitting, value) => setGlasses(sitting, id, value === NONE ? null : { frame: value as FrameKind }),
  })
  if (!glasses) return [frame]
  return [
    frame,
    field('tiltDeg', 'tipped', quantities.angle),
    field('frontCurveD', 'curve', quantities.dioptres),
    choice('glasses.coated', {
      label: 'lenses',
      value: glasses.coated ? 'coated' : 'plain',
      choices: LENSES,
      change: (sitting, value) => setGlasses(sitting, id, { coated: value === 'coated' }),
    }),
  ]
}
