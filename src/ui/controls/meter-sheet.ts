import { landmarkWords } from '../../readings'
import {
  type MeterCounts,
  type MeterPlace,
  type MeterReceptor,
  moveMeter,
  removeGrid,
  renameMeter,
  type Sitting,
  setMeterPlace,
  setOwnMeter,
} from '../../sitting'
import { quantities } from '../values'
import { heldAt, insideNow } from './meter-hold'
import { action, type ControlSheet, choice, group, number, type Row, text } from './model'
import { centreRows } from './set-sheets'

const { plain } = quantities

/** Places of a sitter by name, from the top. */
const ON_SITTER = [
  'crown',
  'foreheadCentre',
  'noseTip',
  'cheekRight',
  'cheekLeft',
  'chin',
  'sternalNotch',
  'shoulderRight',
  'shoulderLeft',
] as const
const AIR = 'air'
const PAPER = 'paper'

/** One meter place: where it is held, where it points, whose light counts; and the user's own dome. */
export function meterSheet(place: MeterPlace, sitting: Sitting): ControlSheet {
  const change = (s: Sitting, fields: Parameters<typeof setMeterPlace>[2]) =>
    setMeterPlace(s, place.id, fields, insideNow)
  return {
    title: place.name,
    kind: place.name.startsWith('meter') ? '' : 'meter',
    actions: [],
    groups: [
      group('where', 'held', [nameRow(place), holdRow(place, sitting), ...whereRows(place, change)]),
      group('what', 'meter', [
        choice('receptor', {
          label: 'with',
          value: place.receptor,
          choices: ['dome', 'shaded dome', 'disc', 'spot'],
          change: (s, receptor) => change(s, { receptor: receptor as MeterReceptor }),
        }),
        ...(place.receptor === 'spot' ? [] : aimRows(place, sitting, change)),
      ]),
      group('light', 'light', lightRows(place, sitting, change)),
      group('own', 'own meter', [
        number('domeC', {
          label: 'dome C',
          named: 'constant of the dome',
          quantity: plain('', 5),
          value: sitting.meter?.domeC ?? 250,
          range: [200, 450],
          usual: [250, 350],
          change: (s, domeC) => setOwnMeter(s, { domeC }),
        }),
        ...(place.grid
          ? [
              action('removeGrid', {
                label: `remove all of ${place.grid}`,
                step: `${place.grid} removed`,
                change: (s) => removeGrid(s, place.grid!),
              }),
            ]
          : []),
      ]),
    ],
  }
}

type Changing = (sitting: Sitting, fields: Parameters<typeof setMeterPlace>[2]) => Sitting

const spot = (sitterId: string, landmark: string): string => JSON.stringify([sitterId, landmark])

const nameRow = ({ id, name }: MeterPlace): Row =>
  text('name', {
    label: 'name',
    value: name,
    step: (to) => `${name} named ${to.trim()}`,
    change: (s, to) => renameMeter(s, id, to),
  })

function holdRow({ id, at, facing }: MeterPlace, sitting: Sitting): Row {
  const named = sitting.sitters.flatMap((sitter, i) =>
    [...new Set<string>([...ON_SITTER, ...('landmark' in at ? [at.landmark] : [])])].map((landmark) => ({
      value: spot(sitter.id, landmark),
      label: `at ${landmarkWords(landmark)}${i === 0 ? '' : `, sitter ${i + 1}`}`,
    })),
  )
  return choice('hold', {
    label: 'at',
    named: 'held at',
    value: 'pointM' in at ? AIR : 'acrossShare' in at ? PAPER : spot(at.sitterId, at.landmark),
    choices: [
      { value: AIR, label: 'in the air' },
      ...(sitting.backdrop ? [{ value: PAPER, label: 'on the backdrop' }] : []),
      ...named,
    ],
    change: (s, value) => {
      if (value === AIR) return moveMeter(s, id, heldAt(s, id) ?? [0, 1.2, 0.3], insideNow)
      if (value === PAPER)
        return setMeterPlace(s, id, {
          at: { acrossShare: 0, upShare: 0 },
          facing: facing === 'light' ? facing : 'square',
        })
      const [sitterId, landmark] = JSON.parse(value) as [string, string]
      return setMeterPlace(s, id, { at: { sitterId, landmark } })
    },
  })
}

function whereRows({ id, at }: MeterPlace, change: Changing): Row[] {
  if ('pointM' in at) return centreRows(at.pointM, (s, to) => moveMeter(s, id, to, insideNow))
  if (!('acrossShare' in at)) return []
  const share = (field: 'acrossShare' | 'upShare', label: string, named: string): Row =>
    number(field, {
      label,
      named,
      quantity: plain('', 0.05),
      value: at[field],
      range: [-1, 1],
      change: (s, value) => change(s, { at: { ...at, [field]: value } }),
    })
  return [share('acrossShare', 'across', 'across, of half the width'), share('upShare', 'up', 'up, of half the height')]
}

function aimRows(place: MeterPlace, sitting: Sitting, change: Changing): Row[] {
  const { at, facing } = place
  const free = typeof facing === 'object' && 'aimM' in facing ? facing : null
  const row = choice('facing', {
    label: 'to',
    named: 'pointed to',
    value: typeof facing === 'string' ? facing : 'aimM' in facing ? 'free' : `source ${facing.sourceId}`,
    choices: [
      { value: 'light', label: 'the key' },
      { value: 'lens', label: 'the lens' },
      ...('pointM' in at ? [] : [{ value: 'square', label: 'square off it' }]),
      ...sitting.sources.map(({ id, letter }) => ({ value: `source ${id}`, label: letter })),
      { value: 'free', label: 'a point' },
    ],
    change: (s, value) => change(s, { facing: facingOf(s, value) }),
  })
  return free ? [row, ...centreRows(free.aimM, (s, aimM) => change(s, { facing: { ...free, aimM } }), 'aim ')] : [row]
}

function facingOf(sitting: Sitting, value: string): MeterPlace['facing'] {
  if (value === 'light' || value === 'lens' || value === 'square') return value
  return value === 'free' ? { aimM: sitting.camera.positionM } : { sourceId: value.slice('source '.length) }
}

/** Flash, steady light, modelling lamps, or what of them together; and a word for each source, pressed where it counts. */
function lightRows({ counts, sourceIds }: MeterPlace, sitting: Sitting, change: Changing): Row[] {
  const all = sitting.sources.map(({ id }) => id)
  const counted = sourceIds ?? all
  const toggled = (id: string): readonly string[] | undefined => {
    const next = counted.includes(id) ? counted.filter((other) => other !== id) : [...counted, id]
    return next.length === all.length ? undefined : next
  }
  return [
    choice('counts', {
      label: 'counts',
      value: counts ?? 'both',
      choices: [
        { value: 'both', label: 'flash and steady' },
        { value: 'flash', label: 'flash only' },
        { value: 'steady', label: 'steady only' },
        { value: 'modelling', label: 'modelling lamps only' },
        { value: 'no flash', label: 'steady and modelling' },
        { value: 'all', label: 'flash, steady, modelling' },
      ],
      change: (s, value) => change(s, { counts: value === 'both' ? undefined : (value as MeterCounts) }),
    }),
    ...sitting.sources.map(({ id, letter }) =>
      action(`counts ${id}`, {
        label: `${letter} counts`,
        step: `${letter} counted or not`,
        pressed: counted.includes(id),
        change: (s) => change(s, { sourceIds: toggled(id) }),
      }),
    ),
  ]
}
