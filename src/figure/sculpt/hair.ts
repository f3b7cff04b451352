import { cropLocks, fringe, type Strand, strandCoordinates } from './crop'
import { spline } from './curves'
import * as data from './data/hair'
import { valueNoise } from './noise'
import { clamp01, ease, type Field, mix, smoothStep } from './solids'

const hairline = spline(data.HAIRLINE)
/** Inner face of the shell, this deep under the skin, so that hair is a closed solid. */
export const ROOT_DEPTH = 6

/** A hairline is taken as a run of so many straight pieces, their azimuths evenly spaced. */
const PIECES = 80
/** So many more on the other side of the head count for a place near its middle, or it would have a crease. */
const BEYOND = 24

export interface Edge {
  /** Millimetres inside the hairline, on the head unrolled about its axis; negative outside; without its raggedness. */
  readonly inside: number
  /**
   * The same deep inside, without the crease where two stretches of the hairline are equally near, as between temple and ear: by it
   * hair rises. Of a straight hairline it is the distance: the integral of 1/d⁶ along a line is 3π/(8 d⁵).
   */
  readonly deep: number
}

export interface Hairline {
  edge(x: number, y: number, z: number): Edge
  /** Edge.inside alone, which costs a tenth. */
  inside(x: number, y: number, z: number): number
}

/** Places against a hairline, given as heights by azimuth. */
export function hairlineOf(line: (azimuth: number) => number): Hairline {
  const heights = Float64Array.from({ length: PIECES + 2 * BEYOND + 1 }, (_, i) => line(folded(i - BEYOND)))
  const unrolled = (x: number, z: number) => {
    const ax = Math.abs(x)
    const back = z - data.SKULL_AXIS_Z
    const azimuth = Math.atan2(ax, back)
    const at = (azimuth / Math.PI) * PIECES
    return {
      ...{ azimuth, at, width: (Math.max(30, Math.hypot(ax, back)) * Math.PI) / PIECES },
      first: at < BEYOND ? -BEYOND : 0,
      end: at > PIECES - BEYOND ? PIECES + BEYOND : PIECES,
    }
  }
  /** Squared distance to a piece. */
  const toPiece = (i: number, at: number, width: number, y: number): number => {
    const low = heights[i + BEYOND]
    const across = (at - i) * width
    const up = y - low
    const rise = heights[i + BEYOND + 1] - low
    const t = clamp01((across * width + up * rise) / (width * width + rise * rise))
    const dx = across - t * width
    const dy = up - t * rise
    return dx * dx + dy * dy
  }
  const inside = (x: number, y: number, z: number): number => {
    const { azimuth, at, width, first, end } = unrolled(x, z)
    let nearest = Number.POSITIVE_INFINITY
    // Outwards from the piece over or under the place, until no piece can be nearer.
    const middle = Math.floor(at)
    for (
      let i = Math.min(middle, end - 1);
      i >= first && (at - i - 1 < 0 || ((at - i - 1) * width) ** 2 < nearest);
      i--
    )
      nearest = Math.min(nearest, toPiece(i, at, width, y))
    for (let i = middle + 1; i < end && ((i - at) * width) ** 2 < nearest; i++)
      nearest = Math.min(nearest, toPiece(i, at, width, y))
    return Math.sign(y - line(azimuth)) * Math.sqrt(nearest)
  }
  const deep = (x: number, y: number, z: number): number => {
    const { at, width, first, end } = unrolled(x, z)
    let sum = 0
    for (let i = first; i < end; i++) {
      const low = heights[i + BEYOND]
      const [across, up, rise] = [(at - i) * width, y - low, heights[i + BEYOND + 1] - low]
      const middle = (across - width / 2) ** 2 + (up - rise / 2) ** 2
      sum += Math.sqrt(width * width + rise * rise) / (middle * middle * middle + 1)
    }
    return ((3 * Math.PI) / (8 * sum)) ** 0.2
  }
  return {
    inside,
    edge: (x, y, z) => {
      const is = inside(x, y, z)
      return { inside: is, deep: is < SOFT_FROM ? is : mix(is, deep(x, y, z), ease(SOFT_FROM, SOFT_TO, is)) }
    },
  }
}

/** Azimuth of the end of a piece, from 0 to π whichever side it is on. */
function folded(piece: number): number {
  const turn = Math.abs(piece)
  return ((turn > PIECES ? 2 * PIECES - turn : turn) * Math.PI) / PIECES
}

/** Nearer the hairline its pieces are too long for the integral. */
const [SOFT_FROM, SOFT_TO] = [5, 14]

const shortLine = hairlineOf(hairline)
const shortEdge = shortLine.edge

/** Edge.inside of short hair. */
export const aboveHairline = shortLine.inside

/** How far the edge strays from the drawn line, mm, in whole locks too; within ±RAGGED. */
export const drift = (x: number, y: number, z: number): number =>
  (valueNoise(x * 0.06 + 3, y * 0.06, z * 0.06) - 0.5) * 5 + FRINGE * fringe(strandCoordinates(x, y, z))
const FRINGE = 4.5
const RAGGED = 2.5 + FRINGE
/** Farther outside the hairline the surface lies deep under the skin. */
export const OUTSIDE = -9 - RAGGED

/** 1 before the ear, where the sideburn thins out downwards, 0 elsewhere. */
export function sideburn(x: number, y: number, z: number): number {
  const azimuth = Math.atan2(Math.abs(x), z - data.SKULL_AXIS_Z)
  return (
    smoothStep(1.06, 1.2, azimuth) * smoothStep(1.56, 1.46, azimuth) * smoothStep(24, 4, y) * smoothStep(-50, -35, y)
  )
}

/** Over how many millimetres to either side of the hairline hair thins out: short at the forehead, long where it is cut to fade. */
export function fadeWidth(x: number, y: number, z: number): number {
  const nape = z < -80 ? smoothStep(-5, -55, y) : 0
  const overEar = smoothStep(-56, -70, z) * smoothStep(-118, -100, z) * smoothStep(14, 22, y)
  return mix(mix(mix(7, 10, sideburn(x, y, z)), 17, nape), 5, overEar)
}

/** How far hair has thinned out at a place of the skin: −1 none is left, 0 half, 1 as dense as inside; and on beyond both. */
export function growth(x: number, y: number, z: number): number {
  return insideHairline(x, y, z) / fadeWidth(x, y, z)
}

/** Millimetres inside the hairline, positive where hair grows. */
export const insideHairline = (x: number, y: number, z: number): number => aboveHairline(x, y, z) + drift(x, y, z)

/** The hairline as it strays. */
export function drifted(edgeAt: (x: number, y: number, z: number) => Edge, x: number, y: number, z: number): Edge {
  const { inside, deep } = edgeAt(x, y, z)
  const off = drift(x, y, z)
  return { inside: inside + off, deep: deep + off }
}

/** Noise folded to 0 where it crosses its middle; the fold is rounded, or the mesh breaks it into beads. */
export const creased = (noise: number): number => ((2 * noise - 1) ** 2 + 0.1) ** 0.25

/** Locks: long along the strand, narrow across it; about −1 to 1. */
export function locks([angle, along]: Strand): number {
  const broad = creased(valueNoise(angle * 6 + 40, along * 0.011, 1.5))
  const narrow = creased(valueNoise(angle * 14 + 40, along * 0.014, 7.5))
  const fine = valueNoise(angle * 30 + 40, along * 0.016, 9.5)
  return 1.1 * broad + 0.9 * narrow + 0.5 * fine - 1.4
}

/** 1 over the forehead, 0 from the temples on back. */
const overForehead = (x: number, y: number, z: number): number =>
  smoothStep(-62, -20, z) * smoothStep(34, 62, y) * smoothStep(62, 34, Math.abs(x))

/** Full depth of hair over the skin: a finger's breadth on top, close at the sides, cut short to the nape and the sideburn. */
function fullDepth(x: number, y: number, z: number): number {
  const sides = mix(1.4, 3.4, ease(-30, 46, y)) * mix(0.5, 1, ease(-86, -30, y))
  // Less where the top turns over to the side, or it stands in corners.
  const top = ease(42, 106, y) * mix(1, 0.55, ease(22, 66, Math.abs(x)))
  const crown = ease(-40, 40, y) * ease(-60, -130, z)
  return sides + 8 * top + 2.2 * crown + ease(60, -60, x) * top
}

/** Deepest hair and locks, mm: beyond it no hair need be computed. */
const DEEPEST = 28

/** Hair as a closed shell over the skull, rising out of the skin at the hairline without a step. */
export function hairField(base: Field): Field {
  return (x, y, z) => {
    const skull = base(x, y, z)
    const inner = -(skull + ROOT_DEPTH)
    if (skull > DEEPEST) return skull - DEEPEST + 3
    if (skull < -ROOT_DEPTH - 4) return inner
    const edge = drifted(shortEdge, x, y, z)
    if (edge.inside < OUTSIDE) return Math.max((skull + 9) * 0.85, inner)
    return Math.max((skull - hairSurface(edge, x, y, z)) * 0.85, inner)
  }
}

/** Outside the hairline the surface dives on at the slope it had, then steeply: a feather edge would tear in the mesh. */
export const underSkin = (edge: number, slope: number): number =>
  Math.max(-9, slope * edge - 3 * Math.max(0, -edge - 1.5))

/** From 0 to 1, where neither slope nor curvature jumps. */
export const risen = (t: number): number => 1 - (1 - clamp01(t)) ** RISING
/** Its slope at 0. */
export const RISING = 3

/** Height of the hair over a place of the skin, mm; negative outside the hairline. */
export const hairHeight = (x: number, y: number, z: number): number => hairSurface(drifted(shortEdge, x, y, z), x, y, z)

/** Height of the hair over the skull; negative under the skin outside the hairline, so that both meet at an angle. */
function hairSurface({ inside: edge, deep }: Edge, x: number, y: number, z: number): number {
  const depth = fullDepth(x, y, z)
  const rise = 30 + 34 * overForehead(x, y, z) + 16 * ease(-15, -75, y)
  const body = edge < 0 ? underSkin(edge, (RISING * depth) / rise) : depth * risen(deep / rise)
  const relief = mix(0.15, 2.4, ease(1.5, 10, depth)) * ease(0, 14, deep)
  return body + cropLocks(strandCoordinates(x, y, z)) * relief
}
