import type { Room, Sitting } from '../types'
import { setRoom } from './set'

/** Where X, the floor under the first sitter's eyes, stands between the walls; metres. */
export interface RoomAboutX {
  readonly widthM: number
  readonly depthM: number
  /** From the wall at camera right. */
  readonly rightM: number
  /** From the wall behind the sitter. */
  readonly behindM: number
}

/** What a tape along the floor shows of a room. */
export const roomAboutX = ({ widthM, depthM, xM, zM }: Room): RoomAboutX => ({
  widthM,
  depthM,
  rightM: widthM / 2 + xM,
  behindM: depthM / 2 - zM,
})

/**
 * Changes the room as a tape has it: the two distances of X stay unless they are named, so that a room grows at camera left and
 * behind the camera, and everything that is measured from X keeps its place.
 */
export function setRoomAboutX(sitting: Sitting, change: Partial<RoomAboutX>): Sitting {
  const { widthM, depthM, rightM, behindM } = { ...roomAboutX(sitting.room), ...change }
  return setRoom(sitting, { widthM, depthM, xM: rightM - widthM / 2, zM: depthM / 2 - behindM })
}
