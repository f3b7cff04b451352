import type { Receivers } from '../bounce'
import type { Rig, RigFigure, Surface } from '../rig'
import { OBJECT, OBJECT_KINDS } from './layouts'
import { Table } from './table'

export type PosedPart = RigFigure['posed']['parts'][number]

/** Everything the camera can see, numbered from 1 (0 is the empty background): the rows of the object table. */
export type SeenObject =
  | { readonly kind: 'part'; readonly figure: RigFigure; readonly part: PosedPart }
  | { readonly kind: 'side'; readonly surface: Surface; readonly side: 'front' | 'back' }
  | { readonly kind: 'ball'; readonly index: number }
  | { readonly kind: 'gear'; readonly source: number }
  | { readonly kind: 'lit face'; readonly source: number }
  | { readonly kind: 'probe' }

/** An eyeball: wet, so it mirrors. */
export const isEye = ({ name }: Pick<PosedPart, 'name'>): boolean => name.startsWith('eye')

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
    ...rig.balls.map((_, index) => ({ kind: 'ball', index }) as const),
    ...rig.sources.map((_, source) => ({ kind: 'gear', source }) as const),
    ...rig.sources.map((_, source) => ({ kind: 'lit face', source }) as const),
  ]
}

/** The object table; row 0 is the background. Patch grids are named by surface and side. */
export function packObjects(objects: readonly SeenObject[], receivers: Receivers | null): Table {
  const table = new Table(OBJECT.columns, objects.length + 1)
  objects.forEach((object, i) => {
    const row = i + 1
    const source = object.kind === 'gear' || object.kind === 'lit face' ? object.source : -1
    const f0 = object.kind === 'part' ? object.figure.skinF0 : 0
    const eye = object.kind === 'part' && isEye(object.part) ? 1 : 0
    table.set(row, OBJECT.kind, [kindOf(object), f0, source], eye)
    if (object.kind === 'side') packSide(table, row, object.surface, object.side, receivers)
  })
  return table
}

function kindOf({ kind }: SeenObject): number {
  // A probe in free air is lit as a sitter is.
  if (kind === 'part' || kind === 'probe') return OBJECT_KINDS.figure
  if (kind === 'side') return OBJECT_KINDS.surface
  if (kind === 'lit face') return OBJECT_KINDS.emissive
  return OBJECT_KINDS.other
}

function packSide(table: Table, row: number, surface: Surface, side: 'front' | 'back', receivers: Receivers | null) {
  const grid = receivers?.grids.find((entry) => entry.surfaceId === surface.id && entry.side === side)
  table.set(row, OBJECT.centre, surface.rect.centre, grid?.columns ?? 0)
  table.set(row, OBJECT.halfU, surface.rect.halfU, grid?.rows ?? 0)
  table.set(row, OBJECT.halfV, surface.rect.halfV, grid?.first ?? 0)
}
