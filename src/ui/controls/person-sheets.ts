import { type Camera, type Sitter, type Sitting, setCamera, setReExpose, setSitter } from '../../sitting'
import { quantities } from '../values'
import { type ControlSheet, choice, group, number, type Row } from './model'

const { angleTowards, fNumber, focalLength, fraction, iso, length, lengthTowards, shutter } = quantities

const turn = (
  id: 'bodyTurnDeg' | 'headTurnDeg' | 'headTiltDeg' | 'chinDeg',
  label: string,
  limit: number,
  ways: readonly [string, string],
  sitter: Sitter,
): Row =>
  number(id, {
    label,
    quantity: angleTowards(...ways),
    value: sitter[id],
    range: [-limit, limit],
    change: (sitting, value) => setSitter(sitting, sitter.id, { [id]: value }),
  })

export function sitterSheet(sitter: Sitter): ControlSheet {
  const word = <K extends 'skin' | 'hair' | 'clothes'>(id: K, choices: readonly Sitter[K][]): Row =>
    choice(id, {
      label: id,
      value: sitter[id],
      choices,
      change: (sitting, value) => setSitter(sitting, sitter.id, { [id]: value }),
    })
  return {
    title: 'sitter',
    kind: '',
    actions: [],
    groups: [
      group('where', 'pose', [
        turn('headTurnDeg', 'head', 90, ['right', 'left'], sitter),
        turn('chinDeg', 'chin', 30, ['up', 'down'], sitter),
        turn('headTiltDeg', 'tilt', 30, ['right', 'left'], sitter),
        turn('bodyTurnDeg', 'body', 90, ['right', 'left'], sitter),
        number('eyeHeightM', {
          label: 'eyes',
          quantity: length,
          value: sitter.eyeHeightM,
          range: [0.5, 2.2],
          change: (sitting, eyeHeightM) => setSitter(sitting, sitter.id, { eyeHeightM }),
        }),
      ]),
      group('what', 'look', [
        word('skin', ['very light', 'light', 'intermediate', 'tan', 'brown', 'dark']),
        number('shine', {
          label: 'shine',
          quantity: fraction,
          value: sitter.shine,
          range: [0, 1],
          change: (sitting, shine) => setSitter(sitting, sitter.id, { shine }),
        }),
        word('hair', ['dark', 'brown', 'fair', 'grey']),
        word('clothes', ['white', 'grey', 'black']),
      ]),
    ],
  }
}

/** What holds the exposure when the light changes. */
export const RE_EXPOSE: readonly { value: Sitting['reExpose']; label: string }[] = [
  { value: 'powers', label: 'equal exposure' },
  { value: 'f-number', label: 'equal exposure by f' },
  { value: 'nothing', label: 'equal power' },
]

export function cameraSheet(camera: Camera, reExpose: Sitting['reExpose']): ControlSheet {
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
        axis('distance', 'back', 2, [0.8, 6]),
        axis('height', 'height', 1, [0.3, 2.5]),
        axis('across', 'across', 0, [-2, 2], lengthTowards('right', 'left')),
      ]),
      group('lens', 'lens', [
        number('focal', {
          label: 'focal',
          quantity: focalLength,
          value: camera.focalLengthMm,
          range: [8, 1200],
          usual: [24, 200],
          change: (sitting, focalLengthMm) => setCamera(sitting, { focalLengthMm }),
        }),
        number('aim', {
          label: 'frame',
          quantity: length,
          value: camera.aimM[1],
          range: [-30, 30],
          usual: [0.2, 2],
          change: (sitting, y) => setCamera(sitting, { aimM: [sitting.camera.aimM[0], y, sitting.camera.aimM[2]] }),
        }),
      ]),
      group('exposure', 'exposure', exposureRows(camera, reExpose)),
    ],
  }
}

function exposureRows(camera: Camera, reExpose: Sitting['reExpose']): Row[] {
  return [
    number('fNumber', {
      label: 'f',
      quantity: fNumber,
      value: camera.fNumber,
      range: [0.7, 128],
      usual: [1.4, 22],
      change: (sitting, n) => setCamera(sitting, { fNumber: n }),
    }),
    number('iso', {
      label: 'ISO',
      quantity: iso,
      value: camera.iso,
      range: [6, 409600],
      usual: [50, 1600],
      change: (sitting, value) => setCamera(sitting, { iso: value }),
    }),
    number('shutter', {
      label: 'shutter',
      quantity: shutter,
      value: camera.shutterS,
      range: [0.0001, 60],
      usual: [0.001, 0.05],
      change: (sitting, shutterS) => setCamera(sitting, { shutterS }),
    }),
    choice('reExpose', {
      label: 'keep',
      value: reExpose,
      choices: RE_EXPOSE,
      change: (sitting, value) => setReExpose(sitting, value as Sitting['reExpose']),
    }),
  ]
}
