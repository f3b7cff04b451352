import { outlineOf } from '../photometry'
import type { RigSource } from '../rig'
import { addScaled, pointToWorld, subtract, type Vec3 } from '../space'

/** Rings round the lit face, as shares of its half width: each ring's points stand for as much of it. The outermost first. */
const RINGS = [0.9, 0.35, 0.65]
const A_RING = 8
/** Round a ring: the first four stand in its four quarters. */
const IN_TURN = [0, 2, 4, 6, 1, 3, 5, 7]

/** Points spread over a source's lit face, world; each stands for as much of it. The first four reach its four sides. */
export function litPoints({ frame, litFace: { shape, widthM, heightM } }: RigSource): readonly Vec3[] {
  const outline = outlineOf(shape === 'disc' ? { shape, radiusM: widthM / 2 } : { shape, widthM, heightM })
  const along = (turn: number): Vec3 => {
    const place = turn * outline.length
    const [a, b] = [outline[Math.floor(place) % outline.length], outline[Math.ceil(place) % outline.length]]
    return addScaled(a, subtract(b, a), place - Math.floor(place))
  }
  return RINGS.flatMap((ring) =>
    IN_TURN.map((i) => {
      const [x, y] = along((i + 0.5) / A_RING)
      return pointToWorld(frame, [x * ring, y * ring, 0])
    }),
  )
}
