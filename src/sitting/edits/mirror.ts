import type { Vec3 } from '../../space'
import type { MeterPlace, Sitter, Sitting, TestObject } from '../types'

/** Minus a number, without the −0 that would tell two equal sittings apart. */
const opposite = (value: number): number => (value === 0 ? 0 : -value)
const across = ([x, y, z]: Vec3): Vec3 => [opposite(x), y, z]

const mirrorBoard = <T extends { readonly centreM: Vec3; readonly turnDeg: number }>(board: T): T => ({
  ...board,
  centreM: across(board.centreM),
  turnDeg: opposite(board.turnDeg),
})

const mirrorSitter = (sitter: Sitter): Sitter => ({
  ...sitter,
  xM: opposite(sitter.xM),
  bodyTurnDeg: opposite(sitter.bodyTurnDeg),
  headTurnDeg: opposite(sitter.headTurnDeg),
  headTiltDeg: opposite(sitter.headTiltDeg),
  ...(typeof sitter.gaze === 'object' && {
    gaze: { ...sitter.gaze, acrossDeg: opposite(sitter.gaze.acrossDeg) },
  }),
  ...(sitter.lean && { lean: { ...sitter.lean, asideM: opposite(sitter.lean.asideM) } }),
})

const mirrorObject = (object: TestObject): TestObject =>
  object.kind === 'ball' ? { ...object, centreM: across(object.centreM) } : mirrorBoard(object)

const otherSide = (landmark: string): string =>
  landmark.endsWith('Left') ? landmark.replace(/Left$/, 'Right') : landmark.replace(/Right$/, 'Left')

/** 'cheek at camera left' is at camera right in the mirror. */
const otherSideWords = (words: string): string =>
  words.replace(/\bcamera (left|right)\b/g, (_, side) => `camera ${side === 'left' ? 'right' : 'left'}`)

/** Places of a grid on the backdrop are numbered from camera left: the first of three columns is the third in the mirror. */
function otherName({ name, grid }: MeterPlace): string {
  const columns = Number(/^backdrop (\d) × 3$/.exec(grid ?? '')?.[1])
  const [, row, column] = /^(backdrop (?:bottom|middle|top)) ([1-9])$/.exec(name) ?? []
  // A place that was renamed by hand keeps its words.
  return row && Number(column) <= columns ? `${row} ${columns + 1 - Number(column)}` : otherSideWords(name)
}

function mirrorPlace(before: MeterPlace): MeterPlace {
  const place = { ...before, name: otherName(before) }
  const { at, facing } = place
  const aimed =
    typeof facing === 'object' && 'aimM' in facing ? { facing: { ...facing, aimM: across(facing.aimM) } } : {}
  if ('pointM' in at) return { ...place, ...aimed, at: { ...at, pointM: across(at.pointM) } }
  if ('acrossShare' in at) return { ...place, ...aimed, at: { ...at, acrossShare: opposite(at.acrossShare) } }
  return { ...place, ...aimed, at: { ...at, landmark: otherSide(at.landmark) } }
}

/**
 * The whole set as a mirror shows it: what was at camera right is at camera left, turns go the other way. Done twice it
 * gives the sitting back. Takes stay as they were kept.
 */
export const mirrorSet = (sitting: Sitting): Sitting => ({
  ...sitting,
  sitters: sitting.sitters.map(mirrorSitter),
  sources: sitting.sources.map((source) => ({
    ...source,
    centreM: across(source.centreM),
    aimM: across(source.aimM),
    rollDeg: opposite(source.rollDeg),
  })),
  panels: sitting.panels.map(mirrorBoard),
  objects: sitting.objects.map(mirrorObject),
  room: { ...sitting.room, xM: opposite(sitting.room.xM) },
  camera: { ...sitting.camera, positionM: across(sitting.camera.positionM), aimM: across(sitting.camera.aimM) },
  meterPlaces: sitting.meterPlaces.map(mirrorPlace),
})
