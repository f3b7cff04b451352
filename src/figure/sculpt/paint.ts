/** What is painted on skin and hair: factors 0 to 1 on the base reflectance, linear, per band. Millimetres. */

import { cropTone, type Strand, strandCoordinates } from './crop'
import { EYE_X } from './data/eye'
import * as data from './data/paint'
import { earHollow } from './ear'
import { lidOpening } from './eye'
import { growth } from './hair'
import { atParting, longStrand, underFall } from './longHair'
import { lowerBorder, mouthLine, upperBorder } from './mouth'
import { valueNoise } from './noise'
import { inNostril } from './nose'
import { clamp01, mix, smoothStep } from './solids'

type Coat = readonly [data.Tint, number]

/** Coats laid one over the other, each covering by its share. */
function layered(coats: readonly Coat[]): data.Tint {
  let tint: data.Tint = data.WHITE
  for (const [colour, cover] of coats)
    if (cover > 0) tint = [0, 1, 2].map((k) => tint[k] * mix(1, colour[k], cover)) as unknown as data.Tint
  return tint
}

const blob = (x: number, y: number, cx: number, cy: number, rx: number, ry: number): number =>
  Math.exp(-(((x - cx) / rx) ** 2) - ((y - cy) / ry) ** 2)

export function skinTint(x: number, y: number, z: number): data.Tint {
  const ax = Math.abs(x)
  return layered([
    [data.FLUSH, flush(ax, y, z)],
    [data.SHADE, z > -15 ? 0.5 * blob(ax, y, 28, -10, 13, 5) + 0.45 * blob(ax, y, 17, 2, 5, 7) : 0],
    [data.LIPS, lips(ax, y, z)],
    [data.BROW, brow(ax, y, z)],
    ...lids(ax, y, z),
  ])
}

function flush(ax: number, y: number, z: number): number {
  const ear = smoothStep(68, 77, ax)
  if (z < -60) return 0.75 * ear
  const cheek = 0.55 * blob(ax, y, 40, -31, 17, 15)
  const nose = 0.8 * blob(ax, y, 0, -38, 13, 9) + 0.5 * blob(ax, y, 17, -39, 6, 8)
  const mouth = 0.18 * blob(ax, y, 0, -68, 30, 13) + 0.35 * blob(ax, y, 0, -102, 15, 11)
  const lids = 0.12 * blob(ax, y, 31, 8, 13, 5)
  return clamp01(cheek + nose + mouth + lids)
}

/** Blood shows in patches of some millimetres. */
function mottle(ax: number, y: number, z: number): number {
  const broad = valueNoise(ax * 0.09, y * 0.09, z * 0.09)
  const fine = valueNoise(ax * 0.28 + 7, y * 0.28, z * 0.28)
  return (0.24 * broad + 0.2 * fine) * (1 + 1.5 * flush(ax, y, z))
}

/** Blood of the cheek's lower half down to the jaw, or skin that turns from the light there is the brown of its pigment alone. */
const sideBlood = (ax: number, y: number, z: number): number =>
  0.4 * blob(ax + z, y, 40, -66, 46, 30) * smoothStep(18, 34, ax) * smoothStep(-78, -56, z)

/** Between nose and lips, or it stands out pale between their red. */
const philtrum = (ax: number, y: number, z: number): number => (z > 0 ? 0.42 * blob(ax, y, 0, -53, 16, 7) : 0)

function sallow(ax: number, y: number, z: number): number {
  if (z < -80) return 0
  const forehead = smoothStep(14, 34, y) * smoothStep(-80, -30, z)
  const jaw = 0.2 * blob(ax, y, 34, -88, 16, 16)
  return clamp01((0.9 * forehead + jaw) * mix(0.7, 1, valueNoise(ax * 0.06 + 3, y * 0.06, z * 0.06)))
}

/** Few and faint: where two noises of a few millimetres are both high. The same on both sides, as the face is its own mirror image. */
function spots(ax: number, y: number, z: number): number {
  const scale = 0.42
  const patch = smoothStep(0.62, 0.8, valueNoise(ax * 0.11 + 11, y * 0.11 + 5, z * 0.11))
  return 0.4 * smoothStep(0.72, 0.92, valueNoise(ax * scale + 21, y * scale, z * scale + 9)) * (0.35 + patch)
}

/** The shadow of hair beside it, and of roots: slight where hair thins out on the skin, deep under the mass of it. */
function scalp(x: number, y: number, z: number): number {
  const grown = growth(x, y, z)
  return 0.2 * smoothStep(-2.6, -0.6, grown) + 0.4 * smoothStep(-1.1, 0.5, grown) + 0.35 * smoothStep(0.4, 2, grown)
}

/** A tint of the skin with the shadow of the roots taken off it, as a shaved head has it. */
export function withoutScalp(tint: data.Tint, x: number, y: number, z: number): data.Tint {
  const cover = scalp(x, y, z)
  return cover > 0 ? (tint.map((v, k) => Math.min(1, v / mix(1, data.SCALP[k], cover))) as unknown as data.Tint) : tint
}

function lips(ax: number, y: number, z: number): number {
  if (ax > 27 || z < 5 || y > -56 || y < -80) return 0
  return (
    smoothStep(27, 19, ax) *
    mix(0.7, 0.86, smoothStep(-1, 1, y - mouthLine(ax))) *
    smoothStep(-1.3, 1.5, Math.min(upperBorder(ax) + 0.2 - y, y - lowerBorder(ax) - 0.2))
  )
}

function brow(ax: number, y: number, z: number): number {
  if (z < -15 || y < 8 || y > 34 || ax > 56) return 0
  let deepest = 0
  for (let i = 0; i + 1 < data.BROW_STROKE.length; i++) {
    const [x0, y0, w0] = data.BROW_STROKE[i]
    const [x1, y1, w1] = data.BROW_STROKE[i + 1]
    const t = clamp01(((ax - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2))
    const width = mix(w0, w1, t)
    const off = Math.hypot(ax - mix(x0, x1, t), y - mix(y0, y1, t))
    deepest = Math.max(deepest, smoothStep(width + 1.3, width * 0.35, off))
  }
  return 0.8 * deepest * mix(0.5, 1, smoothStep(10, 18, ax))
}

/** Takes off most of a brow's paint, by which triangles go, and all towards its ends: its hairs are strands. */
function browThinned(ax: number, y: number, z: number): data.Tint {
  const cover = brow(ax, y, z)
  const left = 0.45 * smoothStep(11, 21, ax) * smoothStep(52, 42, ax)
  return cover > 0
    ? (data.BROW.map((v) => mix(1, v, cover * left) / mix(1, v, cover)) as unknown as data.Tint)
    : data.WHITE
}

/** What the skin's triangles do not go by: its mottling, roots of hair, so that a cut leaves the face as it is, nostrils and lid rims. */
export const skinGlaze = (x: number, y: number, z: number): data.Tint =>
  layered([
    [browThinned(Math.abs(x), y, z), 1],
    [data.FLUSH, clamp01(mottle(Math.abs(x), y, z) + sideBlood(Math.abs(x), y, z) + philtrum(Math.abs(x), y, z))],
    [data.SALLOW, sallow(Math.abs(x), y, z)],
    [data.SPOT, spots(Math.abs(x), y, z)],
    [data.SCALP, scalp(x, y, z)],
    [data.NOSTRIL, nostril(Math.abs(x), y, z)],
    [data.EAR_HOLLOW, earHollow(Math.abs(x), y, z)],
    [data.BETWEEN_LIPS, betweenLips(Math.abs(x), y, z)],
    [data.LID_RIM, lidRim(Math.abs(x), y, z)],
    [data.CORNER_MOIST, moistCorner(Math.abs(x), y, z)],
  ])

/** The dark of the nostrils, from the rim, where there is none yet, up to where no light comes. */
function nostril(ax: number, y: number, z: number): number {
  if (ax > 14 || y > -30 || y < -50 || z < 18) return 0
  const { offWall, depth } = inNostril(ax, y, z)
  return smoothStep(1.7, 0.3, offWall) * smoothStep(-2.6, 0.4, depth)
}

/** The line in which the lips meet, where light gets lost. */
const betweenLips = (ax: number, y: number, z: number): number =>
  ax > 27 || z < 5 ? 0 : 0.75 * smoothStep(25, 15, ax) * Math.exp(-(((y - mouthLine(ax)) / 0.9) ** 2))

function lidRim(ax: number, y: number, z: number): number {
  if (z < -2 || y > 4 || y < -9 || ax < 14 || ax > 48) return 0
  const below = smoothStep(1, -1, y - (ax - EYE_X) * 0.07)
  // Uneven, or it is a drawn line.
  const moist = mix(0.45, 1, valueNoise(ax * 0.33, 4.5, 8.5))
  return below * moist * smoothStep(1.3, 0.3, lidOpening(ax - EYE_X, y))
}

/** What the corners' red, by which triangles go, has too much of it: the caruncle, and less of the outer corner's wedge. */
function moistCorner(ax: number, y: number, z: number): number {
  if (z < -2 || Math.abs(y) > 9 || ax < 14 || ax > 48) return 0
  const aside = ax - EYE_X
  const within = smoothStep(-0.1, -0.9, lidOpening(aside, y))
  return within * (aside < 0 ? smoothStep(6.5, 8.5, -aside) : smoothStep(9.5, 11.2, aside))
}

/** Lash line round the lid opening and the pink corner by the nose. */
function lids(ax: number, y: number, z: number): Coat[] {
  if (z < -2 || Math.abs(y) > 9 || ax < 14 || ax > 48) return []
  const d = lidOpening(ax - EYE_X, y)
  const above = smoothStep(-1.2, 1.2, y - (ax - EYE_X) * 0.07)
  const lash = mix(0.12, 0.6, above) * smoothStep(mix(1.1, 2, above), 0.3, Math.abs(d - mix(0.3, 0.5, above)))
  const [aside, within] = [ax - EYE_X, smoothStep(-0.1, -0.9, d)]
  const pink =
    within *
    (aside < 0 ? 1 : 0.7) *
    smoothStep(6.5, 8.5, Math.abs(aside)) *
    mix(0.7, 1, valueNoise(ax * 0.9, y * 0.9, z * 0.9))
  const deep = Math.max(
    0.45 * Math.exp(-(((aside + 12.6) / 0.5) ** 2)),
    smoothStep(-14.2, -15, aside),
    0.15 * smoothStep(12, 13.2, aside),
  )
  return [
    [data.CARUNCLE, pink],
    [data.CORNER_DEEP, 0.55 * deep * smoothStep(0.2, -0.5, d)],
    [data.LASHES, lash],
  ]
}

export const hairTint = (x: number, y: number, z: number): data.Tint => {
  const tone = cropTone(strandCoordinates(x, y, z))
  return [tone, tone * 0.99, tone * 0.98]
}
export const longHairTint = (x: number, y: number, z: number): data.Tint =>
  streaks(longStrand(x, y, z), mix(1, 0.4, underFall(x, y, z)) * mix(1, 0.6, atParting(x, y, z, 7)))

/** Streaks along the strands, from 0.5 to 0.9 of what is open to light. */
function streaks([angle, along]: Strand, open: number): data.Tint {
  const streak =
    valueNoise(angle * 15 + 40, along * 0.02, 3.5) * 0.6 + valueNoise(angle * 40 + 40, along * 0.03, 5.5) * 0.4
  const tone = open * (0.5 + 0.4 * streak)
  return [tone, tone * 0.99, tone * 0.98]
}
