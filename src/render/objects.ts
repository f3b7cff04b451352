import type { Receivers } from '../bounce'
import { HAIR_F0, luminanceFromSrgb, TEAR_FILM_F0 } from '../photometry'
import {
  eyeFrame,
  finishOf,
  gearGridId,
  IRIS,
  isEyeName,
  lidTone,
  lidTurn,
  type Rig,
  type RigFigure,
  type RigSource,
  type SolidSide,
  type Surface,
  sidesOf,
  solidGrid,
} from '../rig'
import { cross, scale, type Vec3 } from '../space'
import { OBJECT, OBJECT_KINDS } from './layouts'
import { Table } from './table'

export type Carriage = RigFigure['posed']['carriage']
export type PosedPart = RigFigure['posed']['parts'][number]

/** Everything the camera can see, numbered from 1 (0 is the empty background): the rows of the object table. */
export type SeenObject =
  | { readonly kind: 'part'; readonly figure: RigFigure; readonly part: PosedPart }
  | { readonly kind: 'side'; readonly surface: Surface; readonly side: SolidSide }
  | { readonly kind: 'ball'; readonly index: number; readonly ball: Rig['balls'][number] }
  | {
      readonly kind: 'gear'
      readonly source: number
      readonly solid: RigSource['gear'][number]
      readonly side: SolidSide
      readonly gridId: string
    }
  | {
      readonly kind: 'lit face'
      readonly source: number
      readonly emitter: RigSource['emitters'][number]
      /** What it lies on. */
      readonly cloth: {
        readonly solid: RigSource['gear'][number]
        readonly side: SolidSide
        readonly gridId: string
      } | null
    }
  | { readonly kind: 'probe' }

/** An eyeball: wet, so it mirrors. */
export const isEye = ({ name }: Pick<PosedPart, 'name'>): boolean => isEyeName(name)

export const eyesOf = ({ figures }: Rig): readonly Vec3[] =>
  figures.filter(({ posed }) => posed.parts.some(isEye)).map(({ posed }) => posed.eyeMidpoint)

/**
 * Facets of a sitter stand off the skin that their normals tell of: as they are, each that turns from the light before its
 * skin does would show as a dark tooth at the shadow's edge.
 */
export const FACETS_LIFT_M = 4e-4

/** 1 for each pixel that shows a sitter, of places with the number of their object: sitters' parts are numbered first. */
export function sitterPixels({ figures }: Rig, places: Float32Array): Uint8Array {
  const last = figures.reduce((sum, { posed }) => sum + posed.parts.length, 0) + 0.5
  return Uint8Array.from({ length: places.length / 4 }, (_, i) =>
    places[4 * i + 3] > 0.5 && places[4 * i + 3] < last ? 1 : 0,
  )
}

export function listObjects(rig: Rig): readonly SeenObject[] {
  return [
    ...rig.figures.flatMap((figure) => figure.posed.parts.map((part) => ({ kind: 'part', figure, part }) as const)),
    ...rig.surfaces.flatMap((surface) =>
      surface.back
        ? ([
            { kind: 'side', surface, side: 'front' },
            { kind: 'side', surface, side: 'back' },
          ] as const)
        : ([{ kind: 'side', surface, side: 'front' }] as const),
    ),
    ...rig.balls.map((ball, index) => ({ kind: 'ball', index, ball }) as const),
    ...rig.sources.flatMap(litFaces),
    // Last, as their count changes with the gear alone: nothing else is renumbered then.
    ...rig.sources.flatMap(({ id, gear }, source) =>
      gear.flatMap((solid, i) =>
        sidesOf(solid).map((side) => ({ kind: 'gear', source, solid, side, gridId: gearGridId(id, i) }) as const),
      ),
    ),
  ]
}

const litFaces = ({ id, emitters, gear }: RigSource, source: number): readonly SeenObject[] =>
  emitters.map((emitter) => {
    const { cloth } = emitter
    const solid = cloth && gear[cloth.solid]
    const lies = solid ? { solid, side: cloth.side, gridId: gearGridId(id, cloth.solid) } : null
    return { kind: 'lit face', source, emitter, cloth: lies } as const
  })

/**
 * The object table; row 0 is the background. Patch grids are named by surface and side, and lie as rig's solidGrid says:
 * a negative count of columns tells of one that goes round the thing. No columns: no bounce is known for it.
 */
export function packObjects(objects: readonly SeenObject[], receivers: Receivers | null): Table {
  const table = new Table(OBJECT.columns, objects.length + 1)
  objects.forEach((object, i) => {
    const row = i + 1
    const source = object.kind === 'gear' || object.kind === 'lit face' ? object.source : -1
    const [f0, eye] = shineOf(object)
    table.set(row, OBJECT.kind, [kindOf(object), f0, source], eye)
    if (object.kind === 'side')
      packGrid(table, row, object.surface.rect, gridOf(receivers, object.surface.id, object.side))
    if (object.kind === 'ball')
      packGrid(table, row, solidGrid({ kind: 'ball', ...object.ball }), gridOf(receivers, object.ball.id, 'front'))
    if (object.kind === 'part') {
      if (isEye(object.part)) packBall(table, row, object, receivers)
      else packCarriage(table, row, object.figure.posed.carriage)
      const { hair, skin } = object.figure.albedo
      table.set(row, OBJECT.hair, isEye(object.part) ? lidTone(skin) : hair)
    }
    const covered = object.kind === 'lit face' ? object.cloth : object.kind === 'gear' ? object : null
    if (covered) packGrid(table, row, solidGrid(covered.solid), gridOf(receivers, covered.gridId, covered.side))
  })
  return table
}

/** Mark hair and skin where an eye has 1: beyond what a lit face may keep there. */
const [HAIR_MARK, SKIN_MARK] = [-2, 2]

/**
 * F0 of a sitter's gloss, and 1 for an eye, 2 for skin, −2 for hair. A lit face keeps there how it looks in other light, as its coat's
 * place is taken by its luminance: reflectance, or F0 and −roughness of a metal.
 */
function shineOf(object: SeenObject): readonly [number, number] {
  if (object.kind === 'part') {
    if (isEye(object.part)) return [TEAR_FILM_F0, 1]
    if (object.part.part.combed) return [HAIR_F0, HAIR_MARK]
    return [object.figure.skinF0, object.part.name === 'skin' ? SKIN_MARK : 0]
  }
  if (object.kind !== 'lit face' || !object.cloth) return [0, 0]
  const finish = finishOf(object.cloth.solid, object.cloth.side)
  return finish.kind === 'matt'
    ? [luminanceFromSrgb(finish.albedo), 0]
    : [luminanceFromSrgb(finish.f0), -finish.roughness]
}

function kindOf({ kind }: SeenObject): number {
  // A probe in free air is lit as a sitter is.
  if (kind === 'part' || kind === 'probe') return OBJECT_KINDS.figure
  if (kind === 'side') return OBJECT_KINDS.surface
  if (kind === 'lit face') return OBJECT_KINDS.emissive
  return OBJECT_KINDS.other
}

type Grid = Receivers['grids'][number]

const gridOf = (receivers: Receivers | null, id: string, side: SolidSide): Grid | undefined =>
  receivers?.grids.find((grid) => grid.surfaceId === id && grid.side === side)

interface GridFrame {
  readonly centre: Vec3
  readonly halfU: Vec3
  readonly halfV: Vec3
  readonly isRound?: boolean
}

function packGrid(table: Table, row: number, { centre, halfU, halfV, isRound }: GridFrame, grid: Grid | undefined) {
  const columns = grid?.columns ?? 0
  table.set(row, OBJECT.centre, centre, isRound ? -columns : columns)
  table.set(row, OBJECT.halfU, halfU, grid?.rows ?? 0)
  table.set(row, OBJECT.halfV, halfV, grid?.first ?? 0)
  if (grid?.sheet) {
    const { at, last, across, from, to } = grid.sheet
    table.set(row, OBJECT.across, [at, last, across === 'columns' ? 1 : 0], 1)
    table.set(row, OBJECT.above, [from, to, 0])
  }
}

/** For strands that are drawn from the head's frame. */
function packCarriage(table: Table, row: number, { pivot, at, head, body }: Carriage) {
  table.set(row, OBJECT.centre, pivot, body[0])
  table.set(row, OBJECT.halfU, at, body[1])
  table.set(row, OBJECT.halfV, head, body[2])
}

/** An eyeball's own axes: its middle, its sight and up square to it; beside them the colour of its iris. Then the head's, and the lids. */
function packBall(
  table: Table,
  row: number,
  { figure, part }: Extract<SeenObject, { kind: 'part' }>,
  receivers: Receivers | null,
) {
  const { posed } = figure
  const { name } = part
  if (!isEyeName(name)) return
  const { origin, y, z } = eyeFrame(figure, name)
  table.set(row, OBJECT.centre, origin, IRIS[0])
  table.set(row, OBJECT.halfU, z, IRIS[1])
  table.set(row, OBJECT.halfV, y, IRIS[2])
  const { headUp, noseDirection, gaze } = posed
  const across = scale(cross(headUp, noseDirection), name === 'eyeLeft' ? 1 : -1)
  table.set(row, OBJECT.across, across, lidTurn(gaze.upDeg, 'upper'))
  table.set(row, OBJECT.above, headUp, lidTurn(gaze.upDeg, 'lower'))
  const map = receivers?.eyes.maps.findIndex((eye) => eye.figureId === figure.id && eye.name === name) ?? -1
  if (!receivers || map < 0) return
  const { cells } = receivers.eyes
  table.set(row, OBJECT.eyeMap, [receivers.patchCount + map * cells * cells, cells, 0])
}
