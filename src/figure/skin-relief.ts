/**
 * The fine relief of skin, from pores to shallow furrows, as a tilt of its normal, and its tone: functions of the place before any pose, so
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

/** How deep in a pore a place lies, 0 to 1, and the way to it from the pore's middle along the lattice, mm. A pore lies within its cell, so one is asked. */
function poreAt(placeMm: Tilt): { readonly depth: number; readonly from: Tilt } {
  const [size, ...rows] = ASKEW[PORES]
  const p = rows.map((row) => dot(row, placeMm) / (size * PORE.cell))
  const cell = p.map(Math.floor)
  const aside = tiltAt(cell[0], cell[1], cell[2] + 4096 * PORES)
  const from = p.map((v, k) => (v - cell[k] - 0.5 - PORE.aside * aside[k]) * PORE.cell) as unknown as Tilt
  const off = dot(from, from) / PORE.half ** 2
  // No two are as deep.
  return { depth: (0.55 + 0.45 * aside[2]) * Math.exp(-off) * (1 - smoothStep(1, 2.2, off)), from }
}

const poresShare = (footprintMm: number): number => smoothStep(1, 2, (2 * PORE.half) / footprintMm)

/** The wall of a pore turns towards its middle. */
function pore(placeMm: Tilt, footprintMm: number): Tilt {
  const share = poresShare(footprintMm)
  if (share === 0) return [0, 0, 0]
  const [size, ...rows] = ASKEW[PORES]
  const { depth, from } = poreAt(placeMm)
  const wall = -share * PORE.tilt * depth
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

/**
 * Blood and pigment lie in clouds of some millimetres: [width mm, amplitude]. Sizes and tones by eye; that blood takes green and blue and
 * pigment most of the blue is known of haemoglobin and melanin. Seeds follow those of the yarn.
 */
const CLOUDS = [
  [5.5, 0.5],
  [2.1, 1],
  [0.9, 0.7],
] as const
const FIRST_CLOUD = 6
const BLOOD = [0.01, 0.06, 0.056] as const
const PIGMENT = [0.03, 0.042, 0.05] as const
/** What a pore's middle lacks of light, of the deepest; and the mean of that over the skin. */
const PORE_DARK = { most: 0.22, mean: 0.0028 } as const

/** Factor on the reflectance per band, mean 1, alike on both sides of the face. placeMm, footprintMm: as of the relief. */
export function skinClouds([x, y, z]: Tilt, footprintMm: number): Tilt {
  const place: Tilt = [Math.abs(x), y, z]
  let [blood, pigment] = [0, 0]
  CLOUDS.forEach(([width, amplitude], i) => {
    const share = amplitude * smoothStep(1, 2, width / footprintMm)
    if (share === 0) return
    const [size, ...rows] = ASKEW[i]
    const one = latticeTilt(rows.map((row) => dot(row, place) / (size * width)) as unknown as Tilt, FIRST_CLOUD + i)
    blood += share * one[0]
    pigment += share * one[1]
  })
  const share = poresShare(footprintMm)
  const open = share === 0 ? 1 : 1 - share * (PORE_DARK.most * poreAt([x, y, z]).depth - PORE_DARK.mean)
  return [0, 1, 2].map((k) => open * (1 + BLOOD[k] * blood + PIGMENT[k] * pigment)) as unknown as Tilt
}
