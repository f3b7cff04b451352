import { SKIN_TONES } from '../../photometry'
import {
  type Camera,
  HOOD_RANGES,
  type Hood,
  RE_EXPOSE_WORDS,
  type Sitter,
  type Sitting,
  setCamera,
  setHood,
  setReExpose,
  setSitter,
} from '../../sitting'
import { quantities } from '../values'
import { balanceRows, formatRow, framingRow, syncRow } from './camera-rows'
import { glassesRows } from './glasses-rows'
import { CAMERAS_RIGHT, type ControlSheet, choice, group, type NumberSpec, note, number, type Row } from './model'
import { gazeRows, heightRows, leanRows } from './pose-rows'
import { shapeRows } from './shape-rows'
import { wearRows } from './wear-rows'

const { angleTowards, fNumber, focalLength, fraction, iso, length, lengthTowards, shutter, smallLength } = quantities

type Spec = Omit<NumberSpec, 'value' | 'change'>

/** A number of the sitter under the name that it has in the document. */
const ofSitter = (
  sitter: Sitter,
  id: 'xM' | 'zM' | 'bodyTurnDeg' | 'headTurnDeg' | 'headTiltDeg' | 'chinDeg' | 'shine',
  spec: Spec,
): Row =>
  number(id, {
    ...spec,
    value: sitter[id],
    change: (sitting, value) => setSitter(sitting, sitter.id, { [id]: value }),
  })

const turn = (label: string, limit: number, ways: readonly [string, string]): Spec => ({
  label,
  quantity: angleTowards(...ways),
  range: [-limit, limit],
})

const ofCamera = (
  camera: Camera,
  id: string,
  field: 'focalLengthMm' | 'fNumber' | 'iso' | 'shutterS',
  spec: Spec,
): Row =>
  number(id, { ...spec, value: camera[field], change: (sitting, value) => setCamera(sitting, { [field]: value }) })

/** The set is measured from the first sitter, who therefore stays; any other one can be moved. */
const whereRows = (sitter: Sitter): Row[] => [
  ofSitter(sitter, 'xM', {
    label: 'across',
    quantity: lengthTowards('right', 'left'),
    range: [-10, 10],
    usual: [-2, 2],
  }),
  ofSitter(sitter, 'zM', {
    label: 'depth',
    quantity: lengthTowards('forward', 'back'),
    range: [-10, 10],
    usual: [-2, 2],
  }),
]

/** title: 'sitter', 'sitter 2'. risenM: by how much the pose has the eyes higher than at rest, metres. */
export function sitterSheet(sitter: Sitter, title: string, first: boolean, risenM: number): ControlSheet {
  const word = <K extends 'skin' | 'hair' | 'clothes'>(id: K, choices: readonly Sitter[K][]): Row =>
    choice(id, {
      label: id,
      value: sitter[id],
      choices,
      change: (sitting, value) => setSitter(sitting, sitter.id, { [id]: value }),
    })
  return {
    title,
    kind: '',
    actions: [],
    groups: [
      group('where', 'pose', [
        ofSitter(sitter, 'headTurnDeg', turn('head', 90, ['right', 'left'])),
        ofSitter(sitter, 'chinDeg', turn('chin', 30, ['up', 'down'])),
        ofSitter(sitter, 'headTiltDeg', turn('tilt', 30, ['right', 'left'])),
        ofSitter(sitter, 'bodyTurnDeg', turn('body', 90, ['right', 'left'])),
        ...leanRows(sitter),
        ...gazeRows(sitter),
        ...heightRows(sitter, risenM),
        ...(first ? [] : whereRows(sitter)),
        note('whose', CAMERAS_RIGHT),
      ]),
      group('what', 'look', [
        word('skin', SKIN_TONES),
        ofSitter(sitter, 'shine', { label: 'shine', quantity: fraction, range: [0, 1] }),
        word('hair', ['dark', 'brown', 'fair', 'grey']),
        ...wearRows(sitter),
        word('clothes', ['white', 'grey', 'black']),
        ...glassesRows(sitter),
      ]),
      group('build', 'build', shapeRows(sitter)),
    ],
  }
}

/** What holds the exposure when the light changes. */
export const RE_EXPOSE = (['powers', 'f-number', 'nothing'] as const).map((value) => ({
  value,
  label: RE_EXPOSE_WORDS[value],
}))

export function cameraSheet(set: Sitting): ControlSheet {
  const { camera, reExpose } = set
  const axis = (id: string, label: string, at: 0 | 1 | 2, usual: readonly [number, number], quantity = length): Row =>
    number(id, {
      label,
      quantity,
      value: camera.positionM[at],
      range: [-30, 30],
      usual,
      change: (sitting, value) => {
        const from = sitting.camera.positionM
        return setCamera(sitting, { positionM: [0, 1, 2].map((i) => (i === at ? value : from[i])) as never })
      },
    })
  return {
    title: 'camera',
    kind: '',
    actions: [],
    groups: [
      group('where', 'where', [
        framingRow(set),
        axis('distance', 'back', 2, [0.8, 6]),
        axis('height', 'height', 1, [0.3, 2.5]),
        axis('across', 'across', 0, [-2, 2], lengthTowards('right', 'left')),
      ]),
      group('lens', 'lens', [
        formatRow(camera),
        ofCamera(camera, 'focal', 'focalLengthMm', {
          label: 'focal',
          quantity: focalLength,
          range: [8, 1200],
          usual: [24, 200],
        }),
        number('aim', {
          label: 'frame',
          quantity: length,
          value: camera.aimM[1],
          range: [-30, 30],
          usual: [0.2, 2],
          change: (sitting, y) => setCamera(sitting, { aimM: [sitting.camera.aimM[0], y, sitting.camera.aimM[2]] }),
        }),
        number('aside', {
          label: 'aside',
          named: 'frame aside',
          quantity: lengthTowards('right', 'left'),
          value: camera.aimM[0],
          range: [-30, 30],
          usual: [-2, 2],
          change: (sitting, x) => setCamera(sitting, { aimM: [x, sitting.camera.aimM[1], sitting.camera.aimM[2]] }),
        }),
        ...hoodRows(camera),
      ]),
      group('exposure', 'exposure', exposureRows(camera, reExpose)),
    ],
  }
}

const NO_HOOD = 'none'

/** On or off, and how deep and wide it is. */
function hoodRows({ hood }: Camera): Row[] {
  const worn = choice('hood', {
    label: 'hood',
    value: hood ? 'on' : NO_HOOD,
    choices: [NO_HOOD, 'on'],
    change: (sitting, value) => setHood(sitting, value === NO_HOOD ? null : {}),
  })
  if (!hood) return [worn]
  const side = (id: keyof Hood, label: string, named: string, usual: readonly [number, number]): Row =>
    number(`hood.${id}`, {
      ...{ label, named, usual, range: HOOD_RANGES[id], value: hood[id] },
      quantity: { ...smallLength, step: 0.005 },
      change: (sitting, value) => setHood(sitting, { [id]: value }),
    })
  return [
    worn,
    side('depthM', 'deep', 'depth of the hood', [0.02, 0.15]),
    side('diameterM', 'open', 'opening of the hood', [0.05, 0.15]),
  ]
}

function exposureRows(camera: Camera, reExpose: Sitting['reExpose']): Row[] {
  return [
    ofCamera(camera, 'fNumber', 'fNumber', { label: 'f', quantity: fNumber, range: [0.7, 128], usual: [1.4, 22] }),
    ofCamera(camera, 'iso', 'iso', { label: 'ISO', quantity: iso, range: [6, 409600], usual: [50, 1600] }),
    ofCamera(camera, 'shutter', 'shutterS', {
      label: 'shutter',
      quantity: shutter,
      range: [0.0001, 60],
      usual: [0.001, 0.05],
    }),
    syncRow(camera),
    ...balanceRows(camera),
    choice('reExpose', {
      label: 'keep',
      value: reExpose,
      choices: RE_EXPOSE,
      change: (sitting, value) => setReExpose(sitting, value as Sitting['reExpose']),
    }),
  ]
}
