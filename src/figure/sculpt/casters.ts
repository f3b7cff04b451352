import { monotoneWarp } from './recipes'

/**
 * Where the skin's proxy must keep its shape, as what casts shadows on the face: round the nose it counts three times, at
 * the lids and the line of the mouth four times and more, under the chin twice, where light grazes and a tenth of a millimetre moves an edge by
 * one; on the rest of the face more than on the back of the head. Millimetres.
 */
const x = monotoneWarp([
  { centre: 0, half: 22, soft: 15, factor: 3 },
  { centre: 0, half: 50, soft: 20, factor: 1.6 },
  { centre: 31.5, half: 16, soft: 6, factor: 3.6 },
  { centre: -31.5, half: 16, soft: 6, factor: 3.6 },
])
const y = monotoneWarp([
  { centre: -30, half: 32, soft: 15, factor: 3 },
  { centre: -35, half: 65, soft: 20, factor: 1.6 },
  { centre: 7, half: 9, soft: 6, factor: 4.5 },
  { centre: -67.5, half: 5, soft: 5, factor: 5 },
  { centre: -110, half: 5, soft: 8, factor: 2.2 },
])
const z = monotoneWarp([
  { centre: 25, half: 20, soft: 20, factor: 3 },
  { centre: 15, half: 30, soft: 30, factor: 1.6 },
])

export function magnifiedCasters(positions: Float64Array): Float32Array {
  const warps = [x, y, z]
  return Float32Array.from(positions, (at, i) => warps[i % 3](at))
}
