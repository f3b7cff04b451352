import type { Mesh } from '../../space'
import { lazily } from '../lazily'
import type { FigurePart } from '../types'

/** Times that a normal takes in its neighbours': some 6 mm on the hair's triangles. */
const ROUNDS = 6
/** Of the smoothed normal. By eye. */
const SHARE = 0.65

/**
 * Hair whose normals lean to those about them: light goes in between the strands, so a lock's flanks are no walls of carved
 * wood, and its sheen runs on from lock to lock.
 */
export const softened = (hair: FigurePart): FigurePart =>
  lazily<FigurePart>(hair, { mesh: () => lazily<Mesh>(hair.mesh, { normals: () => softNormals(hair.mesh) }) })

function softNormals({ normals, indices }: Mesh): Float32Array {
  let smooth = normals
  for (let round = 0; round < ROUNDS; round++) smooth = unitSums(smooth, indices)
  return unit(normals.map((value, i) => value + SHARE * (smooth[i] - value)))
}

function unitSums(normals: Float32Array, indices: Uint32Array): Float32Array {
  const sums = normals.slice()
  for (let t = 0; t < indices.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const sum = normals[3 * indices[t] + k] + normals[3 * indices[t + 1] + k] + normals[3 * indices[t + 2] + k]
      for (let corner = 0; corner < 3; corner++) sums[3 * indices[t + corner] + k] += sum
    }
  return unit(sums)
}

function unit(normals: Float32Array): Float32Array {
  for (let i = 0; i < normals.length; i += 3) {
    const size = Math.hypot(normals[i], normals[i + 1], normals[i + 2]) || 1
    for (let k = 0; k < 3; k++) normals[i + k] /= size
  }
  return normals
}
