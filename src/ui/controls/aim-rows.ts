import {
  AIMS,
  aimBeside,
  aimName,
  aimPoint,
  aimSource,
  changeThing,
  type PlaceLandmarks,
  type Sitting,
  type Source,
  thingById,
} from '../../sitting'
import { fixed, quantities } from '../values'
import { action, type ControlContext, choice, type Group, group, note, number, type Row } from './model'

const { angle, length, lengthTowards } = quantities
const across = lengthTowards('right', 'left')
const AXES = [
  { id: 'aim-across', label: 'across', named: 'across', quantity: across, at: 0, usual: [-1.5, 1.5] },
  { id: 'aim-height', label: 'height', named: 'height', quantity: length, at: 1, usual: [0, 2.5] },
  { id: 'aim-depth', label: 'to lens', named: 'towards camera', quantity: length, at: 2, usual: [-2, 2] },
] as const
const FREELY = 'a point'

/** Where a source is turned to: by name, or by its point, and about its own axis. */
export function aimGroup(source: Source, context: ControlContext): Group {
  const rows: Row[] = AXES.map((axis) =>
    number(axis.id, {
      label: axis.label,
      named: `aim ${axis.named}`,
      quantity: axis.quantity,
      value: source.aimM[axis.at],
      range: [-30, 30],
      usual: axis.usual,
      change: (sitting, value) => {
        const { aimM } = thingById(sitting, 'sources', source.id)
        return aimSource(sitting, source.id, [0, 1, 2].map((i) => (i === axis.at ? value : aimM[i]!)) as never)
      },
    }),
  )
  const roll = number('roll', {
    label: 'roll',
    quantity: angle,
    value: source.rollDeg,
    range: [-180, 180],
    usual: [-90, 90],
    change: (sitting, rollDeg) => changeThing(sitting, 'sources', source.id, { rollDeg }),
  })
  return group('aim', 'aim', [...byName(source, context), ...rows, roll])
}

function byName(source: Source, { sitting, marks }: ControlContext): readonly Row[] {
  if (!marks) return []
  const names = AIMS.filter((name) => aimPoint(sitting, source, name, marks) !== null)
  const row = choice('aim-at', {
    label: 'at',
    named: 'aimed at',
    value: aimName(sitting, source, marks) ?? FREELY,
    choices: [...names, FREELY],
    change: (now, chosen) => {
      const name = names.find((one) => one === chosen)
      const point = name && aimPoint(now, thingById(now, 'sources', source.id), name, marks)
      return point ? aimSource(now, source.id, point) : now
    },
  })
  return [row, ...again(source, sitting, marks)]
}

/** Where the head has turned away from an aim at it, a word to that effect and one to aim again. */
function again(source: Source, sitting: Sitting, marks: PlaceLandmarks): readonly Row[] {
  const beside = aimBeside(sitting, source, marks)
  if (!beside) return []
  const { name, offM } = beside
  const words = `That point is ${fixed(100 * offM, 0)} cm off the ${name}: a lamp on its stand does not follow a head that turns.`
  return [
    note('aim-left', words),
    action('aim-again', {
      label: `aim at the ${name} again`,
      step: `${source.letter} aimed at the ${name} again`,
      change: (now) => {
        const point = aimPoint(now, thingById(now, 'sources', source.id), name, marks)
        return point ? aimSource(now, source.id, point) : now
      },
    }),
  ]
}
