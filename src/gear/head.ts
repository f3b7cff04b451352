import type { Cylinder } from '../photometry'
import type { Frame, Vec3 } from '../space'
import { DARK_METAL } from './cloths'
import type { GearSolid } from './solids'

/** Lamp and dish: opening, outside and length of an 18 cm dish; the head's own thickness. Common practice, no source. */
export const DISH = { openingRadiusM: 0.09, outerRadiusM: 0.1, lengthM: 0.12 }
export const BODY_RADIUS_M = 0.065

/** Dish and body behind a lamp whose opening lies at z = zM; side is the sign of local z towards the head's back. */
export function headCylinders(zM: number, side: 1 | -1, bodyM: number): readonly Cylinder[] {
  const at = (length: number): Vec3 => [0, 0, zM + side * length]
  const dish = { from: at(0), to: at(DISH.lengthM), radiusM: DISH.outerRadiusM }
  if (bodyM === 0) return [dish]
  return [dish, { from: at(DISH.lengthM), to: at(DISH.lengthM + bodyM), radiusM: BODY_RADIUS_M }]
}

export const asSolids = (cylinders: readonly Cylinder[]): readonly GearSolid[] =>
  cylinders.map((cylinder) => ({ kind: 'cylinder', ...cylinder, albedo: DARK_METAL }))

/** The source's frame itself, or moved along its axis. */
export const ahead = (zM: number): Frame => ({ origin: [0, 0, zM], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] })
/** At a place on the axis, turned round to shine backwards. */
export const turned = (zM: number): Frame => ({ origin: [0, 0, zM], x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, -1] })

export const inCentimetres = (metres: number): string => `${Math.round(metres * 100)} cm`
export const inMetres = (metres: number): string => `${metres.toFixed(2)} m`
