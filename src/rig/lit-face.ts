import { outlineOf } from '../photometry'
import { add, pointToWorld, scale, type Vec3 } from '../space'
import type { RigSource } from './types'

/** Outline of the lit face as a tape finds it: the front cloth, or the rim plane of a reflected umbrella. World. */
export function litFaceOutline({ frame, litFace }: RigSource): readonly Vec3[] {
  const { shape, widthM, heightM } = litFace
  const local = outlineOf(shape === 'disc' ? { shape, radiusM: widthM / 2 } : { shape, widthM, heightM })
  return local.map((p) => pointToWorld(frame, p))
}

/** Middle of the lamp and all that it carries: what its stand or boom holds up. World. */
export function loadCentre({ gear, frame }: RigSource): Vec3 {
  const middles = gear.flatMap((solid) => (solid.kind === 'cylinder' ? [scale(add(solid.from, solid.to), 0.5)] : []))
  return middles.length === 0 ? frame.origin : scale(middles.reduce(add), 1 / middles.length)
}
