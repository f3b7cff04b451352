import { type Field, liningWords, MODIFIER_KINDS, measuredFigures, modifierName } from '../../gear'
import {
  moveSource,
  type Sitting,
  type Source,
  setHead,
  setModifier,
  setPower,
  setSourcePlace,
  sourcePlace,
  switchSource,
} from '../../sitting'
import { LAMP_FILES } from '../lamp-names'
import { fixed, quantities } from '../values'
import { aimGroup } from './aim-rows'
import { calibrationRows } from './calibration-rows'
import { dialRows } from './dial-rows'
import { gelRows } from './gel-rows'
import { kitUseRows } from './kit-use-rows'
import {
  action,
  type ControlContext,
  type ControlSheet,
  choice,
  type Group,
  group,
  note,
  number,
  type Row,
} from './model'
import { modellingRows } from './modelling-rows'
import { swapKind } from './swap-kind'

const { angle, angleTowards, colourTemperature, energy, length, plain, powerOf, smallLength } = quantities
const ROLES: readonly Source['role'][] = ['key', 'fill', 'hair', 'backdrop', 'kicker']

export function sourceSheet(source: Source, context: ControlContext): ControlSheet {
  const { id, letter } = source
  return {
    title: letter,
    kind: source.role,
    what: modifierName(source.modifier),
    lining: liningWords(source.modifier),
    actions: [
      action('on', {
        label: source.on ? 'on' : 'off',
        step: `${letter} ${source.on ? 'off' : 'on'}`,
        pressed: source.on,
        change: (sitting) => switchSource(sitting, id, !source.on),
      }),
    ],
    groups: [
      where(source, context),
      what(source, context),
      howStrong(source, context),
      ...(kindOf(source)?.remote?.kind === 'around' ? [] : [aimGroup(source, context)]),
    ],
  }
}

function where(source: Source, { sitting, marks, foot }: ControlContext): Group {
  const { id } = source
  const remote = kindOf(source)?.remote?.kind
  if (remote === 'around') return group('where', 'where', [note('around', AROUND_WORDS)])
  const height = number('height', {
    label: 'height',
    quantity: length,
    value: source.centreM[1],
    range: [0.05, 6],
    usual: [0.3, 3],
    change: (s, y) => moveSource(s, id, [source.centreM[0], y, source.centreM[2]]),
  })
  if (!marks) return group('where', 'where', [height])
  const place = sourcePlace(source, sitting.camera, marks)
  const round = number('round', {
    label: 'round',
    quantity: angleTowards('right', 'left'),
    value: place.azimuthFromLensDeg,
    range: [-180, 180],
    change: (s, azimuthFromLensDeg) => setSourcePlace(s, id, { azimuthFromLensDeg }, marks),
  })
  const up = number('up', {
    label: 'up',
    quantity: angleTowards('up', 'down'),
    value: place.elevationDeg,
    range: [-89, 89],
    usual: [-45, 80],
    change: (s, elevationDeg) => setSourcePlace(s, id, { elevationDeg }, marks),
  })
  const tape = number('tape', {
    label: 'tape',
    quantity: length,
    value: place.tapeM,
    range: [0.05, 20],
    usual: [0.3, 4],
    change: (s, tapeM) => setSourcePlace(s, id, { tapeM }, marks),
  })
  if (remote === 'far') return group('where', 'where', [round, { ...up, quantity: angle }, note('far', FAR_WORDS)])
  const stand = foot ? [note('foot', foot)] : []
  return group('where', 'where', [round, { ...up, quantity: angle }, tape, height, ...stand])
}

/** In the order of their list. */
const BOXES = ['softbox', 'octa', 'strip']

const SILVER_OR_WHITE = 'silver or white: umbrellas, beauty dish'

/** solveBox with a matt lining of 0.8 in place of 0.85: the cloth passes 0.10 (octa) to 0.19 (strip) stop less. */
const BOX_LINING =
  'Silver inside. A white lining, which the model lacks, would cost 0.1 to 0.2 stop: the cloth spreads the light anew. Compare silver and white in umbrellas, the beauty dish or panels.'

const FAR_WORDS = 'So far off that only its direction counts, and that is from its sign on the drawings to its aim.'

const AROUND_WORDS = 'All round, under open sky: its place does not count.'

const kindOf = ({ modifier }: Source) => MODIFIER_KINDS.find(({ id }) => id === modifier.kind)

function what(source: Source, context: ControlContext): Group {
  const { id, modifier } = source
  const kind = kindOf(source)
  return group('what', 'what', [
    choice('kind', {
      label: 'kind',
      value: modifier.kind,
      choices: MODIFIER_KINDS.map(({ id: value, label }) => ({
        value,
        label,
        ...(value === BOXES.at(-1) && { after: SILVER_OR_WHITE }),
      })),
      change: (sitting, value) => swapKind(sitting, id, value),
    }),
    ...(BOXES.includes(modifier.kind) ? [note('lining', BOX_LINING)] : []),
    ...(kind?.fields ?? []).flatMap((field) => (field.type === 'text' ? [] : [fieldRow(source, field)])),
    ...(kind?.id === 'measured-lamp' ? measuredRows(source) : []),
    choice('role', {
      label: 'role',
      value: source.role,
      choices: ROLES,
      change: (sitting, role) => withSource(sitting, id, { role: role as Source['role'] }),
    }),
    ...(kind?.remote ? [] : [kitUseRows(source, context, kind?.burnsOn !== true)]),
  ])
}

/** What the table holds, which has no rows of its own, and the way to another one. */
function measuredRows({ id, modifier }: Source): readonly Row[] {
  const { fluxLm, peakCd, planes, angles } = measuredFigures(modifier)
  const figures = `${fixed(fluxLm, 0)} lm, ${fixed(peakCd, 0)} cd at most; ${angles} angles in ${planes} planes.`
  return [
    note('measured', `${modifier.name}: ${figures} Full power is what the file says.`),
    {
      kind: 'file',
      id: 'lamp-file',
      label: 'read a lamp file',
      accept: LAMP_FILES,
      open: async (file) => {
        await (await import('../lamp-files')).openLampFile(file, id)
      },
    },
  ]
}

/** The role is a word of the plan and the readings; it moves nothing. */
const withSource = (sitting: Sitting, id: string, change: Partial<Source>): Sitting => ({
  ...sitting,
  sources: sitting.sources.map((source) => (source.id === id ? { ...source, ...change } : source)),
})

/** Short words for the rows; the field's own label is the row's full name. */
const SHORT: Readonly<Record<string, string>> = {
  diameterM: 'open',
  widthM: 'wide',
  heightM: 'high',
  depthM: 'deep',
  shaftM: 'lamp at',
  bodyM: 'head long',
  grid: 'grid',
  cloth: 'cloth',
  forwardShare: 'direct',
  roughness: 'rough',
  holeM: 'hole',
  lengthM: 'long',
  fluxLm: 'light',
  beam: 'beam',
  powerW: 'watts',
  lamp: 'lamp',
  luminanceCdM2: 'sky',
  illuminanceLx: 'light',
  curtain: 'curtain',
  front: 'front',
  inner: 'inner',
  lipM: 'lip',
  backing: 'back',
  lining: 'lining',
  behindM: 'lamp at',
  deflectorM: 'plate',
}

/** 'deep and lamp at': the short words of the fields that follow one. */
const takenAlong = (source: Source, id: string): string =>
  (MODIFIER_KINDS.find((kind) => kind.id === source.modifier.kind)?.fields ?? [])
    .filter((field) => field.type === 'number' && field.follows === id)
    .map((field) => NOUNS[field.id] ?? field.label)
    .join(' and ')

const NOUNS: Readonly<Record<string, string>> = { depthM: 'depth', shaftM: 'shaft' }

/** One row for one line of the kind's own field table. */
function fieldRow(source: Source, field: Exclude<Field, { readonly type: 'text' }>): Row {
  const change = (sitting: Sitting, value: number | string) => setModifier(sitting, source.id, { [field.id]: value })
  const stored = source.modifier[field.id] ?? field.default
  const words = { label: SHORT[field.id] ?? field.label, named: field.label }
  if (field.type === 'choice')
    return choice(field.id, { ...words, value: String(stored), choices: field.choices, change })
  const along = takenAlong(source, field.id)
  return number(field.id, {
    ...words,
    ...(along ? { takesAlong: `with ${along} in proportion` } : {}),
    quantity: field.unit === 'm' ? { ...smallLength, step: field.step } : plain(field.unit, field.step),
    value: typeof stored === 'number' ? stored : field.default,
    range: field.range,
    usual: field.usual,
    change,
  })
}

/** The field keeps the relation of the powers; equal exposure may ask the dial for another one. */
const dialWords = (head: Source['head'], stops: number): string =>
  Math.abs(stops - head.powerStops) < 0.05
    ? 'Set the dial to that.'
    : `Set the dial to ${powerOf(head).format(stops, 'metres')}, not to what stands over this line: equal exposure moves all powers together, and the fields only keep their relation.`

const remoteDial = (stops: number): string =>
  Math.abs(stops) < 0.05
    ? 'It has no dial, and this exposure needs none.'
    : `It has no dial, and is shown ${fixed(Math.abs(stops), 1)} stops ${stops > 0 ? 'brighter' : 'dimmer'} than it is: change time, f-number or ISO, or let the f-number give way.`

function howStrong(source: Source, context: ControlContext): Group {
  const { sitting, exposure } = context
  const { id, head } = source
  const { burnsOn, remote } = kindOf(source) ?? {}
  const dial = sitting.reExpose === 'powers' ? exposure?.perSourceStops[id] : undefined
  return group('how strong', 'how strong', [
    // Sun and sky have no dial; a file may say that there is less of it.
    ...(remote && head.powerStops === 0
      ? []
      : [
          number('power', {
            label: 'power',
            quantity: powerOf(head),
            value: head.powerStops,
            range: [head.lowestStops, 0],
            change: (now, stops) => setPower(now, id, stops),
          }),
        ]),
    ...(dial === undefined ? [] : [note('dial', remote ? remoteDial(dial) : dialWords(head, dial))]),
    burnsOn
      ? note('burns-on', 'Burns on through the exposure: a longer time gathers more of it, and no more flash.')
      : number('head', {
          label: 'head',
          quantity: energy,
          value: head.energyJ,
          range: [1, 6400],
          usual: [50, 1200],
          change: (now, energyJ) => setHead(now, id, { energyJ }),
        }),
    number('colour', {
      label: 'colour',
      quantity: colourTemperature,
      value: head.colourTemperatureK,
      range: [2000, 20000],
      usual: [2500, 8000],
      change: (now, colourTemperatureK) => setHead(now, id, { colourTemperatureK }),
    }),
    ...(remote ? [] : [dialRows(source), calibrationRows(source, context)]),
    gelRows(source),
    ...modellingRows(source),
  ])
}
