/**
 * The eye as a body of revolution: sclera of radius 12.0 mm, cornea of radius 7.8 mm whose centre lies 5.35 mm forward.
 * The two spheres meet at r = 5.85 with a step of 19° in slope; as in a real limbus, it is blended over r 5.4 to 6.6.
 */
import { BALL_RADIUS, CORNEA_CENTRE_Z, CORNEA_RADIUS } from './data/eye'
import * as paint from './data/paint'
import type { RawMesh } from './nets'
import { mix, smoothStep } from './solids'

const SEGMENTS = 48
const FRONT_RINGS = [
  0.6, 1.2, 1.65, 1.85, 2.6, 3.6, 4.6, 5.1, 5.4, 5.6, 5.8, 6, 6.2, 6.4, 6.7, 7.2, 8, 9, 10, 11, 11.6, 11.9, 12,
]
const BACK_LATITUDES_DEG = [18, 45, 70]
const BLEND_FROM = 5.4
const BLEND_TO = 6.6

export interface Eyeball extends RawMesh {
  readonly normals: Float32Array
  readonly tint: Float32Array
}

const corneaZ = (r: number): number => CORNEA_CENTRE_Z + Math.sqrt(Math.max(0, CORNEA_RADIUS ** 2 - r * r))
const scleraZ = (r: number): number => Math.sqrt(Math.max(0, BALL_RADIUS ** 2 - r * r))
const corneaSlope = (r: number): number => -r / Math.sqrt(CORNEA_RADIUS ** 2 - r * r)
const scleraSlope = (r: number): number => -r / Math.sqrt(BALL_RADIUS ** 2 - r * r)

/** Height and slope of the front at radius r. Between the spheres: the cubic that takes both ends' height and slope. */
function eyeProfile(r: number): { readonly z: number; readonly slope: number } {
  if (r <= BLEND_FROM) return { z: corneaZ(r), slope: corneaSlope(r) }
  if (r >= BLEND_TO) return { z: scleraZ(r), slope: r < BALL_RADIUS ? scleraSlope(r) : Number.NEGATIVE_INFINITY }
  const h = BLEND_TO - BLEND_FROM
  const t = (r - BLEND_FROM) / h
  const [z0, z1, s0, s1] = [
    corneaZ(BLEND_FROM),
    scleraZ(BLEND_TO),
    corneaSlope(BLEND_FROM) * h,
    scleraSlope(BLEND_TO) * h,
  ]
  const c2 = 3 * (z1 - z0) - 2 * s0 - s1
  const c3 = 2 * (z0 - z1) + s0 + s1
  return { z: z0 + t * (s0 + t * (c2 + t * c3)), slope: (s0 + t * (2 * c2 + 3 * t * c3)) / h }
}

interface Ring {
  readonly r: number
  readonly z: number
  /** Unit normal: outward in the ring's plane, and along z. */
  readonly out: number
  readonly forward: number
}

function rings(): Ring[] {
  const front = FRONT_RINGS.map((r): Ring => {
    const { z, slope } = eyeProfile(r)
    const out = Number.isFinite(slope) ? -slope / Math.hypot(1, slope) : 1
    return { r, z, out, forward: Math.sqrt(1 - out * out) }
  })
  const back = BACK_LATITUDES_DEG.map((degrees): Ring => {
    const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)]
    return { r: BALL_RADIUS * c, z: -BALL_RADIUS * s, out: c, forward: -s }
  })
  return [...front, ...back]
}

/** Pupil, iris with radial streaks, limbal ring, sclera reddening away from the iris. */
function eyeTint(r: number, z: number, angle: number): paint.Tint {
  if (z < 0) return paint.SCLERA_CORNER
  const streak = 0.5 + 0.5 * Math.sin(angle * 17 + 2 * Math.sin(angle * 5)) * smoothStep(1.8, 3, r)
  const collar = Math.exp(-(((r - 2.8) / 0.9) ** 2))
  const iris = [0, 1, 2].map((k) => paint.IRIS[k] + paint.IRIS_FLECK[k] * (streak + collar - 0.7))
  const toPupil = smoothStep(1.86, 1.64, r)
  const toRing = smoothStep(4.9, 5.7, r)
  const toSclera = smoothStep(5.55, 6.25, r)
  const redden = smoothStep(7, 11.5, r)
  return [0, 1, 2].map((k) => {
    const inner = mix(mix(iris[k], paint.PUPIL[k], toPupil), paint.LIMBAL_RING[k], toRing)
    return mix(inner, mix(1, paint.SCLERA_CORNER[k], redden), toSclera)
  }) as unknown as paint.Tint
}

/** Eyeball about its own centre, looking along +z. Millimetres. */
export function eyeball(): Eyeball {
  const profile = rings()
  const apex = CORNEA_CENTRE_Z + CORNEA_RADIUS
  const positions = [0, 0, apex]
  const normals = [0, 0, 1]
  const tint: number[] = [...eyeTint(0, apex, 0)]
  for (const ring of profile)
    for (let s = 0; s < SEGMENTS; s++) {
      const angle = (s / SEGMENTS) * 2 * Math.PI
      const [c, d] = [Math.cos(angle), Math.sin(angle)]
      positions.push(ring.r * c, ring.r * d, ring.z)
      normals.push(ring.out * c, ring.out * d, ring.forward)
      tint.push(...eyeTint(ring.r, ring.z, angle))
    }
  positions.push(0, 0, -BALL_RADIUS)
  normals.push(0, 0, -1)
  tint.push(...paint.SCLERA_CORNER)
  return {
    positions: Float64Array.from(positions),
    normals: Float32Array.from(normals),
    tint: Float32Array.from(tint),
    indices: latheIndices(profile.length),
  }
}

function latheIndices(ringCount: number): Uint32Array {
  const last = ringCount * SEGMENTS + 1
  const indices: number[] = []
  for (let s = 0; s < SEGMENTS; s++) {
    const next = (s + 1) % SEGMENTS
    indices.push(0, 1 + s, 1 + next)
    for (let ring = 0; ring + 1 < ringCount; ring++) {
      const [a, b] = [1 + ring * SEGMENTS + s, 1 + ring * SEGMENTS + next]
      indices.push(a, a + SEGMENTS, b, b, a + SEGMENTS, b + SEGMENTS)
    }
    const base = 1 + (ringCount - 1) * SEGMENTS
    indices.push(base + s, last, base + next)
  }
  return Uint32Array.from(indices)
}
