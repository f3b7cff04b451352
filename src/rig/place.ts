import type { GearSolid } from '../gear'
import { cross, directionToWorld, type Frame, pointToWorld, type Rect, radians, scale, type Vec3 } from '../space'

/** Things of a local frame carried into the world. */

export const frameToWorld = (outer: Frame, inner: Frame): Frame => ({
  origin: pointToWorld(outer, inner.origin),
  x: directionToWorld(outer, inner.x),
  y: directionToWorld(outer, inner.y),
  z: directionToWorld(outer, inner.z),
})

const rectToWorld = (outer: Frame, rect: Rect): Rect => ({
  centre: pointToWorld(outer, rect.centre),
  halfU: directionToWorld(outer, rect.halfU),
  halfV: directionToWorld(outer, rect.halfV),
})

export function solidToWorld(outer: Frame, solid: GearSolid): GearSolid {
  switch (solid.kind) {
    case 'cylinder':
      return { ...solid, from: pointToWorld(outer, solid.from), to: pointToWorld(outer, solid.to) }
    case 'rectangle':
      return { ...solid, rect: rectToWorld(outer, solid.rect) }
    case 'disc':
      return { ...solid, centre: pointToWorld(outer, solid.centre), normal: directionToWorld(outer, solid.normal) }
    case 'cap':
      return { ...solid, rimCentre: pointToWorld(outer, solid.rimCentre), axis: directionToWorld(outer, solid.axis) }
  }
}

/** A board by its middle, size and the direction of its front: turn from +z to +x, tilt upwards, degrees. */
export interface Board {
  readonly centreM: Vec3
  readonly widthM: number
  readonly heightM: number
  readonly turnDeg: number
  readonly tiltDeg: number
}

/** Axes of a board's front: z its normal, x level, y up along the board. */
export function boardFrame({ centreM, turnDeg, tiltDeg }: Omit<Board, 'widthM' | 'heightM'>): Frame {
  const turn = radians(turnDeg)
  const tilt = radians(tiltDeg)
  const z: Vec3 = [Math.sin(turn) * Math.cos(tilt), Math.sin(tilt), Math.cos(turn) * Math.cos(tilt)]
  const x: Vec3 = [Math.cos(turn), 0, -Math.sin(turn)]
  return { origin: centreM, x, y: cross(z, x), z }
}

export function boardRect(board: Board): Rect {
  const { origin, x, y } = boardFrame(board)
  return { centre: origin, halfU: scale(x, board.widthM / 2), halfV: scale(y, board.heightM / 2) }
}
