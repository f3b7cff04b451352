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
  /** A second cloth between lamp and front; left out: none. */
  readonly inner?: InnerCloth
}

export interface InnerCloth {
  /** Its width and height as a share of the section there, 0 to 1. */
  readonly share: number
  /** From the front cloth back, as a share of the depth. */
  readonly at: number
  readonly transmittance: number
  readonly reflectance: number
}

interface Patch {
  readonly centre: Vec3
  readonly inward: Vec3
  readonly areaM2: number
  readonly part: Part
}

type Part = 'front' | 'back' | 'lining' | 'inner-lamp' | 'inner-front'

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
  /** Of an inner cloth. */
  readonly inner?: readonly [number, number]
}

/** Enough for the transmittance, 0.3 % from the limit, in about 15 ms; the corners of the map want twice as many. */
const CELLS: BoxCells = { front: [10, 10], back: 4, lining: [8, 6] }
const INNER_CELLS = [8, 8] as const

/**
 * Light inside a closed box of matt patches: each sees every other that no inner cloth hides, B = ρ(E₀ + F·B), solved by
 * repetition; the two sides of an inner cloth send each other's light on. Patches exchange AᵢAⱼ·cosᵢcosⱼ/(π r²), then
 * scaled on both sides until each row adds up to Aᵢ: a closed box loses nothing, and the crude kernel of patches that meet
 * in an edge is put right by that.
 */
export function solveBox(size: BoxSize, inside: BoxLining, cells: BoxCells = CELLS): BoxLight {
  const sheet = inside.inner && innerSheet(size, inside.inner)
  const patches = boxPatches(size, cells, sheet)
  const exchange = balancedExchange(patches, sheet)
  const direct = lampLight(patches, [0, 0, inside.lampM - size.depthM], inside.lampShape, sheet)
  const reflectance = patches.map(({ part }) => reflectanceOf(inside, part))
  const through = inside.inner?.transmittance ?? 0
  const behind = otherSides(patches)
  let arriving = direct
  for (let bounce = 0; bounce < 40; bounce++) {
    const leaving = arriving.map((e, i) => e * reflectance[i] + (behind[i] < 0 ? 0 : through * arriving[behind[i]]))
    arriving = direct.map((e, i) => {
      let sum = 0
      for (let j = 0; j < leaving.length; j++) sum += exchange[i][j] * leaving[j]
      return e + sum / patches[i].areaM2
    })
  }
  const front = patches.flatMap(({ part, areaM2 }, i) => (part === 'front' ? [{ areaM2, e: arriving[i] }] : []))
  const out = front.reduce((sum, { areaM2, e }) => sum + areaM2 * e, 0) * inside.frontTransmittance
  return {
    transmittance: out,
    columns: cells.front[0],
    rows: cells.front[1],
    illuminance: front.map(({ e }) => e),
  }
}

function reflectanceOf(inside: BoxLining, part: Part): number {
  if (part === 'front') return inside.frontReflectance
  if (part === 'back') return inside.back
  return part === 'lining' ? inside.lining : (inside.inner?.reflectance ?? 0)
}

/** Of each patch of an inner cloth the patch on its other side; −1: it has none. */
function otherSides(patches: readonly Patch[]): readonly number[] {
  const first = (part: Part) => patches.findIndex((patch) => patch.part === part)
  const [lamp, front] = [first('inner-lamp'), first('inner-front')]
  return patches.map(({ part }, i) =>
    part === 'inner-lamp' ? i - lamp + front : part === 'inner-front' ? i - front + lamp : -1,
  )
}

/** An inner cloth in the box: half its sides, and its place. */
interface Sheet {
  readonly halfX: Metres
  readonly halfY: Metres
  readonly z: Metres
}

function innerSheet({ widthM, heightM, depthM, backM }: BoxSize, { share, at }: InnerCloth): Sheet {
  const half = (front: number) => (share * (front + (backM - front) * at)) / 2
  return { halfX: half(widthM), halfY: half(heightM), z: -at * depthM }
}

/** Does an inner cloth stand between two places that are not on it? */
function isHidden(a: Vec3, b: Vec3, sheet: Sheet | undefined): boolean {
  if (!sheet) return false
  const [above, under] = [a[2] - sheet.z, b[2] - sheet.z]
  if (above * under > -1e-9) return false
  const t = above / (above - under)
  const at = (k: number) => Math.abs(a[k]! + t * (b[k]! - a[k]!))
  return at(0) <= sheet.halfX && at(1) <= sheet.halfY
}

function boxPatches({ widthM, heightM, depthM, backM }: BoxSize, cells: BoxCells, sheet?: Sheet): readonly Patch[] {
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
  ]
    .map((patch) => ({ ...patch, inward: towardsMiddle(patch, [0, 0, -depthM / 2]) }))
    .concat(sheet ? innerPatches(sheet, cells.inner ?? INNER_CELLS) : [])
}

function innerPatches({ halfX, halfY, z }: Sheet, cells: readonly [number, number]): Patch[] {
  const corner = (sx: number, sy: number): Vec3 => [sx * halfX, sy * halfY, z]
  const quad = [corner(-1, -1), corner(1, -1), corner(-1, 1), corner(1, 1)] as const
  const side = (part: Part, up: number) =>
    grid(quad, ...cells, part).map((patch): Patch => ({ ...patch, inward: [0, 0, up] }))
  return [...side('inner-lamp', -1), ...side('inner-front', 1)]
}

type Quad = readonly [Vec3, Vec3, Vec3, Vec3]

/** Cells of a flat quadrilateral given by its corners 00, 10, 01, 11. */
function grid([p00, p10, p01, p11]: Quad, across: number, along: number, part: Part): Patch[] {
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

function balancedExchange(patches: readonly Patch[], sheet?: Sheet): readonly Float64Array[] {
  const raw = patches.map(() => new Float64Array(patches.length))
  for (let i = 0; i < patches.length; i++)
    for (let j = 0; j < i; j++) raw[i][j] = raw[j][i] = exchangeBetween(patches[i], patches[j], sheet)
  let factor = patches.map(() => 1)
  for (let step = 0; step < 12; step++)
    factor = factor.map((f, i) => {
      let row = 0
      for (let j = 0; j < factor.length; j++) row += raw[i][j] * factor[j]
      return Math.sqrt((f * patches[i].areaM2) / row)
    })
  return raw.map((row, i) => row.map((value, j) => value * factor[i] * factor[j]))
}

/** AᵢAⱼ·cosᵢcosⱼ/(π r²). The innermost loop: no vectors made. */
function exchangeBetween(a: Patch, b: Patch, sheet: Sheet | undefined): number {
  const x = b.centre[0] - a.centre[0]
  const y = b.centre[1] - a.centre[1]
  const z = b.centre[2] - a.centre[2]
  const cosA = a.inward[0] * x + a.inward[1] * y + a.inward[2] * z
  const cosB = -(b.inward[0] * x + b.inward[1] * y + b.inward[2] * z)
  if (cosA <= 0 || cosB <= 0 || cosA * cosB <= 1e-12 || isHidden(a.centre, b.centre, sheet)) return 0
  const squared = x * x + y * y + z * z
  return (a.areaM2 * b.areaM2 * cosA * cosB) / (Math.PI * squared * squared)
}

/** Illuminance of each patch from the lamp, scaled so that all of the lamp's flux, set to 1, lands. */
function lampLight(
  patches: readonly Patch[],
  lamp: Vec3,
  shape: BoxLining['lampShape'],
  sheet?: Sheet,
): readonly number[] {
  const raw = patches.map(({ centre, inward }) => {
    if (isHidden(lamp, centre, sheet)) return 0
    const away = subtract(centre, lamp)
    const distance = length(away)
    return (Math.max(0, shape(away[2] / distance)) * Math.max(0, -dot(away, inward))) / distance ** 3
  })
  const landed = raw.reduce((sum, e, i) => sum + e * patches[i].areaM2, 0)
  return raw.map((e) => e / landed)
}
