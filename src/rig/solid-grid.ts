import type { GearSolid } from '../gear'
import { addScaled, basisAround, cross, distance, length, normalize, scale, subtract, type Vec3 } from '../space'
import type { Ball } from './types'

export type Solid = GearSolid | ({ readonly kind: 'ball' } & Pick<Ball, 'centre' | 'radiusM'>)
export type SolidSide = 'front' | 'back'

/**
 * A solid's surface as a grid of places, for whoever keeps a value on it and whoever draws it. Flat things, and a cap
 * as seen along its axis: columns along halfU and rows along halfV, places in the middle of the cells. Round ones: the
 * direction from the centre, measured in half axes (halfU, halfV and a third as long as halfU, square to both), with
 * columns round halfV from halfU on and rows from −halfV to +halfV, both poles among them.
 */
export interface SolidGrid {
  readonly isRound: boolean
  readonly centre: Vec3
  readonly halfU: Vec3
  readonly halfV: Vec3
  readonly columns: number
  readonly rows: number
}

/** On a ball places lie 15° apart: between them a cosine is met within 1 %. */
const BALL = { columns: 24, rows: 13 }
const CYLINDER = { columns: 6, rows: 6 }
const THIN = { columns: 3, rows: 3 }

/** A cylinder and a ball are closed; all else has a back too. Front: along the normal, outside of a cap. */
export const sidesOf = ({ kind }: Solid): readonly SolidSide[] =>
  kind === 'cylinder' || kind === 'ball' ? ['front'] : ['front', 'back']

/** The name under which a solid of gear keeps its grid: by its number in the source's list. */
export const gearGridId = (sourceId: string, solid: number): string => `gear:${sourceId}:${solid}`

export function solidGrid(solid: Solid): SolidGrid {
  switch (solid.kind) {
    case 'ball': {
      const { centre, radiusM: r } = solid
      return { isRound: true, centre, halfU: [r, 0, 0], halfV: [0, r, 0], ...BALL }
    }
    case 'cylinder': {
      const along = subtract(solid.to, solid.from)
      const halfU = scale(basisAround(normalize(along))[0], solid.radiusM)
      const centre = addScaled(solid.from, along, 0.5)
      return { isRound: true, centre, halfU, halfV: scale(along, 0.5), ...CYLINDER }
    }
    case 'rectangle':
      return { isRound: false, ...solid.rect, ...THIN }
    case 'disc':
      return { isRound: false, centre: solid.centre, ...discAxes(solid.normal, solid.radiusM), ...THIN }
    case 'cap':
      return { isRound: false, centre: solid.rimCentre, ...discAxes(solid.axis, solid.diameterM / 2), ...THIN }
  }
}

function discAxes(normal: Vec3, radiusM: number): { readonly halfU: Vec3; readonly halfV: Vec3 } {
  const [x, y] = basisAround(normal)
  return { halfU: scale(x, radiusM), halfV: scale(y, radiusM) }
}

/** World, on the surface; the normal is unit and points out of the side. */
export interface SolidPlace {
  readonly point: Vec3
  readonly normal: Vec3
}

export function placeOnSolid(solid: Solid, side: SolidSide, column: number, row: number): SolidPlace {
  const grid = solidGrid(solid)
  const front = grid.isRound ? roundPlace(solid, grid, column, row) : flatPlace(solid, grid, column, row)
  return side === 'front' ? front : { ...front, normal: scale(front.normal, -1) }
}

function roundPlace({ kind }: Solid, { centre, halfU, halfV, columns, rows }: SolidGrid, column: number, row: number) {
  const polar = (Math.PI * row) / (rows - 1)
  const around = (2 * Math.PI * column) / columns
  const [r, v] = [Math.sin(polar), -Math.cos(polar)]
  const third = cross(halfU, normalize(halfV))
  const out = addScaled(scale(halfU, Math.cos(around)), third, Math.sin(around))
  const at = (k: number): Vec3 => addScaled(addScaled(centre, out, r * k), halfV, v * k)
  if (kind === 'ball') return { point: at(1), normal: normalize(subtract(at(1), centre)) }
  // Out to the side of the cylinder or to one of its ends, whichever comes first.
  return r > Math.abs(v)
    ? { point: at(1 / r), normal: normalize(out) }
    : { point: at(1 / Math.abs(v)), normal: scale(normalize(halfV), Math.sign(v)) }
}

/** Corners of a round thing's square are drawn in to its rim. */
const WITHIN_RIM = 0.98

function flatPlace(solid: Solid, { centre, halfU, halfV, columns, rows }: SolidGrid, column: number, row: number) {
  const [u, v] = [(2 * column + 1) / columns - 1, (2 * row + 1) / rows - 1]
  const inwards = solid.kind === 'rectangle' ? 1 : Math.min(1, WITHIN_RIM / Math.hypot(u, v))
  const point = addScaled(addScaled(centre, halfU, u * inwards), halfV, v * inwards)
  if (solid.kind === 'cap') return onCap(solid, point)
  return { point, normal: normalize(cross(halfU, halfV)) }
}

/** Centre and radius of the sphere that a cap is part of, metres. */
export function capSphere({ rimCentre, axis, diameterM, depthM }: Extract<GearSolid, { kind: 'cap' }>) {
  const radiusM = (diameterM ** 2 / 4 + depthM ** 2) / (2 * depthM)
  return { centre: addScaled(rimCentre, axis, depthM - radiusM), radiusM }
}

function onCap(cap: Extract<GearSolid, { kind: 'cap' }>, inRimPlane: Vec3): SolidPlace {
  const { centre, radiusM } = capSphere(cap)
  const aside = distance(inRimPlane, cap.rimCentre)
  const height = Math.sqrt(radiusM ** 2 - aside ** 2) - (radiusM - cap.depthM)
  const point = addScaled(inRimPlane, cap.axis, height)
  const out = subtract(point, centre)
  return { point, normal: scale(out, 1 / length(out)) }
}
