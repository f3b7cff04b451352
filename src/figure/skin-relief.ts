/**
 * The fine relief of skin, from pores to shallow furrows, as a tilt of its normal: a function of the place before any pose, so
 * that it stays where it is on the skin. Twin of src/render/shaders/skin-relief.glsl, which draws it. Widths: pores that show lie about
 * a millimetre apart, furrows 1 to 3 mm (common knowledge, no source); tilts by eye.
 */
import { dot, hash32 } from '../space'
import { mix, smoothStep } from './sculpt/solids'

/** [width mm, tilt]: amplitudes. */
const SCALES = [
  [2.6, 0.034],
  [1.2, 0.03],
  [0.55, 0.015],
] as const

/** Pores, one a cell of a lattice: edge of a cell, half width, mm; tilt a millimetre at its middle, of the deepest; how far off the cell's middle. */
const PORE = { cell: 1.1, half: 0.22, tilt: 0.6, aside: 0.27 } as const
/** The last of ASKEW, and of the lattices. */
const PORES = 3

/** Each scale's lattice stands askew to the face and to the others, or they add up to a weave. Rows of rotations, times their size. */
const ASKEW = [
  [3, [2, -1, 2], [2, 2, -1], [-1, 2, 2]],
  [7, [2, 3, 6], [6, 2, -3], [-3, 6, -2]],
  [9, [1, 8, -4], [4, -4, -7], [8, 1, 4]],
  [11, [6, 6, 7], [-9, 2, 6], [2, -9, 6]],
] as const

export type Tilt = readonly [number, number, number]

/** Three numbers from −1 to 1 of one place of the lattice. */
function tiltAt(i: number, j: number, k: number): Tilt {
  const h = hash32(i + 1024 * j, k)
  return [(h & 1023) / 511.5 - 1, ((h >>> 10) & 1023) / 511.5 - 1, ((h >>> 20) & 1023) / 511.5 - 1]
}

const between = (a: Tilt, b: Tilt, t: number): Tilt => [mix(a[0], b[0], t), mix(a[1], b[1], t), mix(a[2], b[2], t)]

/** Smooth noise of three numbers from −1 to 1, their mean 0. at: in cells of the lattice. */
export function latticeTilt([x, y, z]: Tilt, seed: number): Tilt {
  const [i, j, k] = [Math.floor(x), Math.floor(y), Math.floor(z)]
  const [u, v, w] = [x - i, y - j, z - k].map((t) => smoothStep(0, 1, t))
  const row = (dj: number, dk: number) =>
    between(tiltAt(i, j + dj, k + dk + 4096 * seed), tiltAt(i + 1, j + dj, k + dk + 4096 * seed), u)
  return between(between(row(0, 0), row(1, 0), v), between(row(0, 1), row(1, 1), v), w)
}

/** The wall of a pore turns towards its middle. It lies within its cell, so one is asked. */
function pore(placeMm: Tilt, footprintMm: number): Tilt {
  const share = smoothStep(1, 2, (2 * PORE.half) / footprintMm)
  if (share === 0) return [0, 0, 0]
  const [size, ...rows] = ASKEW[PORES]
  const p = rows.map((row) => dot(row, placeMm) / (size * PORE.cell))
  const cell = p.map(Math.floor)
  const aside = tiltAt(cell[0], cell[1], cell[2] + 4096 * PORES)
  const from = p.map((v, k) => (v - cell[k] - 0.5 - PORE.aside * aside[k]) * PORE.cell)
  const off = dot(from as unknown as Tilt, from as unknown as Tilt) / PORE.half ** 2
  // No two are as deep.
  const wall = -share * PORE.tilt * (0.55 + 0.45 * aside[2]) * Math.exp(-off) * (1 - smoothStep(1, 2.2, off))
  return [0, 1, 2].map(
    (k) => (wall * rows.reduce((sum, row, r) => sum + row[k] * from[r], 0)) / size,
  ) as unknown as Tilt
}

/**
 * To be added to a unit normal; mean 0. placeMm: before any pose. footprintMm: what a pixel takes in; what is narrower than two
 * of them fades out.
 */
export function skinRelief(placeMm: Tilt, footprintMm: number): Tilt {
  let sum = pore(placeMm, footprintMm)
  SCALES.forEach(([width, tilt], seed) => {
    const share = smoothStep(1, 2, width / footprintMm)
    if (share === 0) return
    const [size, ...rows] = ASKEW[seed]
    const at = rows.map((row) => dot(row, placeMm) / (size * width)) as unknown as Tilt
    const one = latticeTilt(at, seed)
    sum = [sum[0] + share * tilt * one[0], sum[1] + share * tilt * one[1], sum[2] + share * tilt * one[2]]
  })
  return sum
}
