import { type Matrix4, Vector4 } from 'three'
import type { Rig } from '../rig'
import type { Vec3 } from '../space'
import { isEye } from './objects'

/** Pixels of a target, from its lower left corner. */
export interface PixelBox {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** An eyeball with its cornea lies within so far of its middle, m. */
const REACH_M = 0.0145

/** Boxes of pixels that hold all that can be seen of the sitters' eyes. worldToClip: of the look. */
export function eyeBoxes({ figures }: Rig, worldToClip: Matrix4, width: number, height: number): readonly PixelBox[] {
  return figures.flatMap(({ posed }) =>
    posed.parts.filter(isEye).flatMap(({ name }) => {
      const side = name === 'eyeLeft' ? 'Left' : 'Right'
      return boxAround(posed.landmarks[`eyeCentre${side}`].position, worldToClip, width, height) ?? []
    }),
  )
}

/** Around a ball of that reach; null: out of the picture. */
function boxAround(centre: Vec3, worldToClip: Matrix4, width: number, height: number): PixelBox | null {
  const { x, y, w } = new Vector4(...centre, 1).applyMatrix4(worldToClip)
  const m = worldToClip.elements
  const near = w - REACH_M
  // Behind the lens, or about it: all pixels, if any.
  if (near <= 0) return w <= -REACH_M ? null : { x: 0, y: 0, width, height }
  const across = span(x, w, near, Math.hypot(m[0], m[4], m[8]), width)
  const up = span(y, w, near, Math.hypot(m[1], m[5], m[9]), height)
  return across && up && { x: across.from, y: up.from, width: across.count, height: up.count }
}

/** Pixels between the ends of a ball along one side of the picture. gain: clip units a metre. */
function span(clip: number, w: number, near: number, gain: number, size: number) {
  const reach = (REACH_M * (gain + Math.abs(clip / w))) / near
  const at = (end: number) => ((clip / w + end * reach + 1) / 2) * size
  const from = Math.max(0, Math.floor(at(-1)))
  const count = Math.min(size, Math.ceil(at(1))) - from
  return count > 0 ? { from, count } : null
}
