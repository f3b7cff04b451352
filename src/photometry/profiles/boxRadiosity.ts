import { addScaled, cross, dot, length, normalize, scale, subtract, type Vec3 } from '../../space'
import type { Metres } from '../units'

/** A box that tapers from its front cloth (z = 0) back to a square plate at z = −depthM. */
export interface BoxSize {
  readonly widthM: Metres
  readonly heightM: Metres
  readonly depthM: Metres
  readonly backM: Metres
}

export interface BoxLining {
  readonly lining: number
  readonly back: number
  /** Of the front cloth, towards the inside. */
  readonly frontReflectance: number
  readonly frontTransmittance: number
  /** Lamp on the axis, in front of the back plate, and its intensity for a cosine to the axis; only the shape counts. */
  readonly lampM: Metres
  readonly lampShape: (cosine: number) => number
}

interface Patch {
  readonly centre: Vec3
  readonly inward: Vec3
  readonly areaM2: number
  readonly part: 'front' | 'back' | 'lining'
}

export interface BoxLight {
  /** Share of the lamp's flux that leaves through the cloth. */
  readonly transmittance: number
  /** On the front cloth: illuminance per unit of lamp flux, 1/m², row by row from the corner −x −y. */
  readonly columns: number
  readonly rows: number
  readonly illuminance: readonly number[]
}

export interface BoxCells {
  readonly front: readonly [number, number]
  readonly back: number
  /** Of each lining wall: along the edge of the cloth, and from the cloth to the plate. */
  readonly lining: readonly [number, number]
}

/** Enough for the transmittance, 0.3 % from the limit, in about 15 ms; the corners of the map want twice as many. */
const CELLS: BoxCells = { front: [10, 10], back: 4, lining: [8, 6] }

/**
 * Light inside a closed, convex box of matt patches: every patch sees every other, B = ρ(E₀ + F·B), solved by repetition.
 * Patches exchange AᵢAⱼ·cosᵢcosⱼ/(π r²), then scaled on both sides until each row adds up to Aᵢ: a closed box loses nothing,
 * and the crude kernel of patches that meet in an edge is put right by that.
 */
export function solveBox(size: BoxSize, inside: BoxLining, cells: BoxCells = CELLS): BoxLight {
  const patches = boxPatches(size, cells)
  const exchange = balancedExchange(patches)
  const direct = lampLight(patches, [0, 0, inside.lampM - size.depthM], inside.lampShape)
  const reflectance = patches.map(({ part }) => reflectanceOf(inside, part))
  let arriving = direct
  for (let bounce = 0; bounce < 40; bounce++) {
    const leaving = arriving.map((e, i) => e * reflectance[i])
    arriving = direct.map((e, i) => {
      let sum = 0
      for (let j = 0; j < leaving.length; j++) sum += exchange[i][j] * leaving[j]
      return e + sum / patches[i].areaM2
    })
  }
  const front = patches.flatMap(({ part, areaM2 }, i) => (part === 'front' ? [{ areaM2, e: arriving[i] }] : []))
  const through = front.reduce((sum, { areaM2, e }) => sum + areaM2 * e, 0) * inside.frontTransmittance
  return {
    transmittance: through,
    columns: cells.front[0],
    rows: cells.front[1],
    illuminance: front.map(({ e }) => e),
  }
}

const reflectanceOf = (inside: BoxLining, part: Patch['part']): number =>
  ({ front: inside.frontReflectance, back: inside.back, lining: inside.lining })[part]

function boxPatches({ widthM, heightM, depthM, backM }: BoxSize, cells: BoxCells): readonly Patch[] {
  const corner = (sx: number, sy: number, back: boolean): Vec3 =>
    back ? [(sx * backM) / 2, (sy * backM) / 2, -depthM] : [(sx * widthM) / 2, (sy * heightM) / 2, 0]
  const turns = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ] as const
  const lining = turns.flatMap(([ax, ay], i) => {
    const [bx, by] = turns[(i + 1) % 4]
    const quad = [corner(ax, ay, false), corner(bx, by, false), corner(ax, ay, true), corner(bx, by, true)] as const
    return grid(quad, ...cells.lining, 'lining')
  })
  const plate = (back: boolean) =>
    [corner(-1, -1, back), corner(1, -1, back), corner(-1, 1, back), corner(1, 1, back)] as const
  return [
    ...grid(plate(false), ...cells.front, 'front'),
    ...grid(plate(true), cells.back, cells.back, 'back'),
    ...lining,
  ].map((patch) => ({ ...patch, inward: towardsMiddle(patch, [0, 0, -depthM / 2]) }))
}

type Quad = readonly [Vec3, Vec3, Vec3, Vec3]

/** Cells of a flat quadrilateral given by its corners 00, 10, 01, 11. */
function grid([p00, p10, p01, p11]: Quad, across: number, along: number, part: Patch['part']): Patch[] {
  const at = (u: number, v: number): Vec3 =>
    addScaled(addScaled(addScaled(scale(p00, (1 - u) * (1 - v)), p10, u * (1 - v)), p01, (1 - u) * v), p11, u * v)
  return Array.from({ length: across * along }, (_, k) => {
    const [i, j] = [k % across, Math.floor(k / across)]
    const [a, b] = [at(i / across, j / along), at((i + 1) / across, (j + 1) / along)]
    const [c, d] = [at((i + 1) / across, j / along), at(i / across, (j + 1) / along)]
    const twice = cross(subtract(b, a), subtract(d, c))
    const centre = at((i + 0.5) / across, (j + 0.5) / along)
    return { centre, inward: normalize(twice), areaM2: length(twice) / 2, part }
  })
}

const towardsMiddle = ({ centre, inward }: Patch, middle: Vec3): Vec3 =>
  dot(inward, subtract(middle, centre)) > 0 ? inward : scale(inward, -1)

function balancedExchange(patches: readonly Patch[]): readonly Float64Array[] {
  const raw = patches.map((a) =>
    Float64Array.from(patches, (b) => {
      const between = subtract(b.centre, a.centre)
      const distanceSq = dot(between, between)
      const cosines = dot(a.inward, between) * -dot(b.inward, between)
      return cosines > 1e-12 ? (a.areaM2 * b.areaM2 * cosines) / (Math.PI * distanceSq * distanceSq) : 0
    }),
  )
  let factor = patches.map(() => 1)
  for (let step = 0; step < 12; step++)
    factor = factor.map((f, i) => {
      let row = 0
      for (let j = 0; j < factor.length; j++) row += raw[i][j] * factor[j]
      return Math.sqrt((f * patches[i].areaM2) / row)
    })
  return raw.map((row, i) => row.map((value, j) => value * factor[i] * factor[j]))
}

/** Illuminance of each patch from the lamp, scaled so that all of the lamp's flux, set to 1, lands. */
function lampLight(patches: readonly Patch[], lamp: Vec3, shape: BoxLining['lampShape']): readonly number[] {
  const raw = patches.map(({ centre, inward }) => {
    const away = subtract(centre, lamp)
    const distance = length(away)
    return (Math.max(0, shape(away[2] / distance)) * Math.max(0, -dot(away, inward))) / distance ** 3
  })
  const landed = raw.reduce((sum, e, i) => sum + e * patches[i].areaM2, 0)
  return raw.map((e) => e / landed)
}
