import { OBJECT_WORDS } from '../../paper'
import {
  type Backdrop,
  PANEL_CLOTHS,
  type Panel,
  type PanelCloth,
  panelWords,
  type Room,
  type RoomAboutX,
  roomAboutX,
  type Sitting,
  setBackdrop,
  setObject,
  setPanel,
  setRoom,
  setRoomAboutX,
  type TestObject,
} from '../../sitting'
import { quantities } from '../values'
import { CAMERAS_RIGHT, type ControlSheet, choice, type Group, group, note, number, type Row } from './model'

const { angle, angleTowards, fraction, length, lengthTowards, smallLength } = quantities

type Centre = readonly [number, number, number]
const AXES = [
  { id: 'across', label: 'across', named: 'across', quantity: lengthTowards('right', 'left'), at: 0, usual: [-2, 2] },
  { id: 'height', label: 'height', named: 'height', quantity: length, at: 1, usual: [0, 2.5] },
  { id: 'depth', label: 'to lens', named: 'towards camera', quantity: length, at: 2, usual: [-2, 2] },
] as const

/** Rows that move a thing along the room's three axes, 5 cm a key. */
export const centreRows = (centre: Centre, move: (sitting: Sitting, to: Centre) => Sitting, of: string = ''): Row[] =>
  AXES.map((axis) =>
    number(`${of}${axis.id}`, {
      label: axis.label,
      named: `${of}${axis.named}`,
      quantity: axis.quantity,
      value: centre[axis.at],
      range: [-30, 30],
      usual: axis.usual,
      change: (sitting, value) => move(sitting, [0, 1, 2].map((i) => (i === axis.at ? value : centre[i])) as never),
    }),
  )

interface Turned {
  readonly turnDeg: number
  readonly tiltDeg: number
}

const turnRows = (board: Turned, turn: (sitting: Sitting, change: Partial<Turned>) => Sitting): Row[] => [
  number('turn', {
    label: 'turn',
    quantity: angleTowards('right', 'left'),
    value: board.turnDeg,
    range: [-180, 180],
    change: (sitting, turnDeg) => turn(sitting, { turnDeg }),
  }),
  number('tilt', {
    label: 'tilt',
    quantity: angleTowards('up', 'down'),
    value: board.tiltDeg,
    range: [-90, 90],
    change: (sitting, tiltDeg) => turn(sitting, { tiltDeg }),
  }),
  note('whose', CAMERAS_RIGHT),
]

/** A board has one cloth on both sides until it is given another behind. */
const AS_FRONT = 'as the front'

export function panelSheet(panel: Panel): ControlSheet {
  const change = (sitting: Sitting, fields: Partial<Panel>) => setPanel(sitting, panel.id, fields)
  const size = (id: 'widthM' | 'heightM', label: string): Row =>
    number(id, {
      label,
      quantity: length,
      value: panel[id],
      range: [0.05, 4],
      usual: [0.2, 2.5],
      change: (sitting, value) => change(sitting, { [id]: value }),
    })
  return {
    title: panelWords(panel),
    kind: '',
    actions: [],
    groups: [
      group('where', 'where', [
        ...centreRows(panel.centreM, (sitting, centreM) => change(sitting, { centreM })),
        ...turnRows(panel, change),
      ]),
      group('what', 'what', [
        choice('kind', {
          label: 'cloth',
          value: panel.kind,
          choices: PANEL_CLOTHS,
          change: (sitting, kind) => change(sitting, { kind: kind as Panel['kind'] }),
        }),
        choice('back', {
          label: 'back',
          named: 'cloth of the back',
          value: panel.back ?? AS_FRONT,
          choices: [AS_FRONT, ...PANEL_CLOTHS],
          change: (sitting, back) => change(sitting, { back: back === AS_FRONT ? undefined : (back as PanelCloth) }),
        }),
        size('widthM', 'wide'),
        size('heightM', 'high'),
        number('fold', {
          label: 'fold',
          named: 'fold of the two halves',
          quantity: angle,
          value: panel.foldDeg ?? 0,
          range: [0, 150],
          change: (sitting, foldDeg) => change(sitting, { foldDeg }),
        }),
      ]),
    ],
  }
}

export function objectSheet(object: TestObject): ControlSheet {
  const change = (sitting: Sitting, fields: Readonly<Record<string, number | Centre>>) =>
    setObject(sitting, object.id, fields)
  const size = (id: string, label: string, value: number, range: readonly [number, number]): Row =>
    number(id, {
      label,
      quantity: smallLength,
      value,
      range,
      usual: [range[0], Math.min(1, range[1])],
      change: (sitting, next) => change(sitting, { [id]: next }),
    })
  const sizes: Row[] =
    object.kind === 'ball'
      ? [size('diameterM', 'across', object.diameterM, [0.01, 1])]
      : [size('widthM', 'wide', object.widthM, [0.01, 4]), size('heightM', 'high', object.heightM, [0.01, 4])]
  const gap = object.kind === 'flag-before-card' ? [size('gapM', 'gap', object.gapM, [0.001, 1])] : []
  return {
    title: OBJECT_WORDS[object.kind],
    kind: '',
    actions: [],
    groups: [
      group('where', 'where', [
        ...centreRows(object.centreM, (sitting, centreM) => change(sitting, { centreM })),
        ...(object.kind === 'ball' ? [] : turnRows(object, (sitting, turn) => change(sitting, { ...turn }))),
      ]),
      group('what', 'what', [...sizes, ...gap, reflectanceRow(object, change)]),
    ],
  }
}

const reflectanceRow = (
  object: TestObject,
  change: (sitting: Sitting, fields: Readonly<Record<string, number>>) => Sitting,
): Row =>
  number('reflectance', {
    label: 'grey',
    quantity: fraction,
    value: object.reflectance,
    range: [0, 1],
    change: (sitting, reflectance) => change(sitting, { reflectance }),
  })

/** What a paper throws back of each: alike they are a grey. */
const BANDS = ['red', 'green', 'blue'] as const

export function backdropSheet(backdrop: Backdrop): ControlSheet {
  const size = (id: 'distanceM' | 'widthM' | 'heightM', label: string, usual: readonly [number, number], max: number) =>
    number(id, {
      label,
      quantity: length,
      value: backdrop[id],
      range: [id === 'distanceM' ? 0.15 : 0.3, max],
      usual,
      change: (sitting, value) => setBackdrop(sitting, { [id]: value }),
    })
  const grey = backdrop.reflectance[1]
  return {
    title: 'backdrop',
    kind: '',
    actions: [],
    groups: [
      group('where', 'where', [size('distanceM', 'behind', [0.15, 4], 15)]),
      group('what', 'what', [
        size('widthM', 'wide', [0.5, 4], 12),
        size('heightM', 'high', [0.5, 4], 8),
        number('reflectance', {
          label: 'grey',
          quantity: fraction,
          value: grey,
          range: [0, 1],
          // A coloured paper keeps its hue: the three bands change by one factor, up to the whole.
          change: (sitting, value) => setBackdrop(sitting, { reflectance: tinted(backdrop.reflectance, value) }),
        }),
        ...BANDS.map((label, band) =>
          number(label, {
            label,
            quantity: fraction,
            value: backdrop.reflectance[band]!,
            range: [0, 1],
            change: (sitting, value) =>
              setBackdrop(sitting, {
                reflectance: backdrop.reflectance.map((share, i) => (i === band ? value : share)) as unknown as Centre,
              }),
          }),
        ),
      ]),
    ],
  }
}

function tinted(paper: Centre, grey: number): Centre {
  const largest = Math.max(...paper)
  if (paper[1] <= 0) return [grey, grey, grey]
  const k = Math.min(grey / paper[1], 1 / largest)
  return [paper[0] * k, paper[1] * k, paper[2] * k]
}

/** No room is less wide or deep. */
const LEAST_M = 1.5
const X_WORDS =
  'X: on the floor under the sitter’s eyes. It keeps both distances when the room is made wider or deeper: that grows at camera left and behind the camera. No room is less wide or deep than they are: type them first.'

export function roomSheet(room: Room): ControlSheet {
  const outdoors = room.outdoors === true
  const about = roomAboutX(room)
  const taped = (id: keyof RoomAboutX, label: string, range: readonly [number, number]): Row =>
    number(id, {
      label,
      quantity: { ...length, step: 0.1 },
      value: about[id],
      range,
      usual: [range[0], Math.min(10, range[1])],
      change: (sitting, value) => (outdoors ? setRoom : setRoomAboutX)(sitting, { [id]: value }),
    })
  // Walls that no sitter stands outside of.
  const least = (fromWallM: number) => (outdoors ? LEAST_M : Math.max(LEAST_M, fromWallM))
  const height = number('heightM', {
    label: 'high',
    quantity: { ...length, step: 0.1 },
    value: room.heightM,
    range: [1.8, 15],
    usual: [1.8, 10],
    change: (sitting, heightM) => setRoom(sitting, { heightM }),
  })
  const paint = (id: 'wallReflectance' | 'ceilingReflectance' | 'floorReflectance', label: string): Row =>
    number(id, {
      label,
      quantity: fraction,
      value: room[id],
      range: [0, 0.95],
      change: (sitting, value) => setRoom(sitting, { [id]: value }),
    })
  const sizes: Group = group('where', 'size', [
    choice('outdoors', {
      label: 'where',
      named: 'indoors or outdoors',
      value: outdoors ? 'out' : 'in',
      choices: [
        { value: 'in', label: 'indoors' },
        { value: 'out', label: 'outdoors' },
      ],
      change: (sitting, value) => setRoom(sitting, { outdoors: value === 'out' }),
    }),
    taped('widthM', 'wide', [least(about.rightM), 40]),
    taped('depthM', 'deep', [least(about.behindM), 40]),
    ...(outdoors
      ? [note('ground', 'No walls, no ceiling: the floor is a piece of ground of this size.')]
      : [
          height,
          taped('behindM', 'X from the wall behind', [0, room.depthM]),
          taped('rightM', 'X from the wall at camera right', [0, room.widthM]),
          note('x', X_WORDS),
        ]),
  ])
  return {
    title: 'room',
    kind: '',
    actions: [],
    groups: [
      sizes,
      group('what', 'paint', [
        ...(outdoors ? [] : [paint('wallReflectance', 'walls'), paint('ceilingReflectance', 'ceiling')]),
        paint('floorReflectance', outdoors ? 'ground' : 'floor'),
      ]),
    ],
  }
}
