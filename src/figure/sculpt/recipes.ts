/** Grids, budgets and weights of the parts that are meshed from fields. Millimetres. */
import type { WornName } from '../types'
import { coveringField } from './covering'
import { PARTING_X } from './data/worn'
import { garmentField } from './garment'
import { axis, type Grid, ramp } from './grid'
import { hairField } from './hair'
import { hatField, hatTint } from './hat'
import { longHairField } from './longHair'
import { hairTint, longHairTint, skinGlaze, skinTint } from './paint'
import type { Recipe } from './part'
import { CENTRE } from './radiusMap'
import { skinField } from './skin'
import { type Field, mix, smoothStep } from './solids'

/** coarseness: 1 for the shipped figure; 3 builds a rough one in a second, for tests. */
export interface SculptOptions {
  readonly coarseness: number
  readonly skinTriangles: number
  readonly hairTriangles: number
  readonly garmentTriangles: number
  readonly proxyTriangles: {
    readonly skin: number
    readonly eye: number
    readonly hair: number
    readonly garment: number
  }
}

export const SHIPPED: SculptOptions = {
  coarseness: 1,
  skinTriangles: 58_660,
  hairTriangles: 16_000,
  garmentTriangles: 14_400,
  proxyTriangles: { skin: 14_400, eye: 300, hair: 3_000, garment: 2_900 },
}

export function skinRecipe(base: Field, options: SculptOptions): Recipe {
  return {
    field: skinField(base),
    grid: skinGrid(options.coarseness),
    reach: 1.6,
    triangles: options.skinTriangles,
    normalStep: 0.25,
    paint: skinTint,
    glaze: skinGlaze,
    warp: magnifyFaceAndEar,
    normalWeight: 0.52,
    paintWeight: 0.8,
    evenTriangles: false,
    // A sliver where the neck is cut takes long to open.
    refinePasses: 16,
  }
}

function skinGrid(q: number): Grid {
  // Finest where the lids' margins, rounded to 0.9 mm, meet the ball.
  const x = (at: number) =>
    Math.min(ramp(at, -1, 52, 0.75 * q, 1.1 * q, 25), ramp(at, 14, 48, 0.45 * q, 1.1 * q, 20)) +
    (at > 105 ? 1.2 * q * Math.min(1, (at - 105) / 30) : 0)
  const y = (at: number) => Math.min(ramp(at, -92, 34, 0.75 * q, 2.6 * q, 60), ramp(at, -8, 8, 0.35 * q, 2.6 * q, 30))
  const z = (at: number) =>
    at > -20 ? Math.min(0.75 * q, ramp(at, 0, 14, 0.45 * q, 2.6 * q, 40)) : ramp(at, -112, -20, q, 2.6 * q, 40)
  return { x: axis(-x(0) / 2, 180, x), y: axis(-275, 125, y), z: axis(-190, 50, z), half: true }
}

/** Cells of one size. A half grid's first x cell straddles the plane of symmetry. */
function evenGrid(
  h: number,
  xFrom: number | null,
  xTo: number,
  y: readonly [number, number],
  z: readonly [number, number],
): Grid {
  const step = () => h
  return { x: axis(xFrom ?? -h / 2, xTo, step), y: axis(...y, step), z: axis(...z, step), half: xFrom === null }
}

/** Wide, so that highlights run along locks instead of sparkling at each fold, mm. */
const HAIR_NORMAL_STEP = 1.2

export function hairRecipe(base: Field, options: SculptOptions): Recipe {
  return {
    field: hairField(base),
    grid: evenGrid(1.7 * options.coarseness, -110, 110, [-125, 150], [-205, 60]),
    reach: 5,
    triangles: options.hairTriangles,
    normalStep: HAIR_NORMAL_STEP,
    paint: hairTint,
    warp: contractedRoots(base),
    normalWeight: 0.3,
    paintWeight: 0,
    evenTriangles: false,
  }
}

export function garmentRecipe(options: SculptOptions): Recipe {
  return {
    field: garmentField,
    grid: garmentGrid(options.coarseness),
    reach: 1.8,
    triangles: options.garmentTriangles,
    normalStep: 0.5,
    paint: null,
    warp: magnifyNeckline,
    normalWeight: 0.6,
    paintWeight: 0,
    evenTriangles: false,
    // Slivers where the band meets the neckline, and at the hem, take long to open.
    refinePasses: 24,
  }
}

/** Finest about the neckline, whose band is a centimetre or two wide. */
function garmentGrid(q: number): Grid {
  const x = (at: number) => ramp(at, -90, 90, 1.7 * q, 2.6 * q, 40)
  const y = (at: number) => (at < -430 ? 4.5 * q : ramp(at, -215, -110, 1.5 * q, 2.6 * q, 40))
  return { x: axis(-274, 274, x), y: axis(-702, -60, y), z: axis(-235, 60, () => 2 * q), half: false }
}

/** The inner face of the hair lies under the skin, unseen: drawn together towards the skull's centre it costs few triangles. */
function contractedRoots(base: Field): NonNullable<Recipe['warp']> {
  return (x, y, z) => {
    const k = mix(0.3, 1, smoothStep(-5.5, -1, base(x, y, z)))
    return [CENTRE[0] + k * (x - CENTRE[0]), CENTRE[1] + k * (y - CENTRE[1]), CENTRE[2] + k * (z - CENTRE[2])]
  }
}

/** Triangles at the parting are small, or its line is ragged: across it distances count up to 3 times. */
function magnifyParting(warp: NonNullable<Recipe['warp']>): NonNullable<Recipe['warp']> {
  return (x, y, z) => {
    const [wx, wy, wz] = warp(x, y, z)
    const aside = (x - PARTING_X) / 5
    return [wx + ((10 * aside) / Math.sqrt(1 + aside * aside)) * smoothStep(40, 80, y), wy, wz]
  }
}

/** Of the parts in files of their own: coarseness as in SculptOptions, triangles of the mesh and of its proxy. */
export interface WornOptions {
  readonly coarseness: number
  readonly triangles: number
  readonly proxyTriangles: number
}

export const SHIPPED_WORN: Readonly<Record<WornName, WornOptions>> = {
  longHair: { coarseness: 1, triangles: 23_000, proxyTriangles: 2_600 },
  covering: { coarseness: 1, triangles: 18_000, proxyTriangles: 2_520 },
  hat: { coarseness: 1, triangles: 14_000, proxyTriangles: 2_000 },
}

export function wornRecipe(name: WornName, base: Field, { coarseness: q, triangles }: WornOptions): Recipe {
  const even = { triangles, normalWeight: 0.3, evenTriangles: false }
  switch (name) {
    case 'longHair':
      return {
        ...even,
        field: longHairField(base),
        grid: evenGrid(2 * q, -115, 115, [-260, 150], [-210, 50]),
        reach: 2.5,
        normalStep: HAIR_NORMAL_STEP,
        paint: longHairTint,
        warp: magnifyParting(contractedRoots(base)),
        paintWeight: 0,
      }
    case 'covering':
      return {
        ...even,
        field: coveringField(base),
        grid: evenGrid(2.2 * q, -165, 165, [-275, 145], [-235, 70]),
        reach: 2,
        normalStep: 1,
        paint: null,
        warp: contractedRoots(base),
        paintWeight: 0,
      }
    case 'hat':
      return {
        ...even,
        field: hatField,
        grid: evenGrid(1.4 * q, null, 150, [-10, 185], [-255, 110]),
        reach: 2,
        normalStep: 0.6,
        paint: hatTint,
        warp: null,
        paintWeight: 0.8,
        evenTriangles: true,
      }
  }
}

/** What lies below the chest counts half. */
function magnifyNeckline(x: number, y: number, z: number): readonly [number, number, number] {
  const k = mix(LOW, 1, smoothStep(-440, -360, y))
  return [k * necklineX(x), necklineY(y) + (1 - LOW) * Math.max(0, LOW_Y - y), k * z]
}
const LOW_Y = -400
const LOW = 0.5

/** Monotone in each axis: distances near the face count up to 3 times, near the ear 2.4 times, at the lids 6 times. */
function magnifyFaceAndEar(x: number, y: number, z: number): readonly [number, number, number] {
  return [warpX(x), warpY(y), warpZ(z)]
}

interface Zone {
  readonly centre: number
  readonly half: number
  readonly soft: number
  readonly factor: number
}

const FACE = 3
const EAR = 2.4
const LIDS = 6
const necklineX = monotoneWarp([{ centre: 0, half: 80, soft: 40, factor: 2.6 }])
const necklineY = monotoneWarp([{ centre: -165, half: 40, soft: 30, factor: 2.6 }], -720)
const warpX = monotoneWarp([
  { centre: 31.5, half: 16, soft: 8, factor: LIDS },
  { centre: 0, half: 45, soft: 35, factor: FACE },
  { centre: 78, half: 8, soft: 20, factor: EAR },
])
const warpY = monotoneWarp([
  { centre: -30, half: 55, soft: 40, factor: FACE },
  { centre: 0, half: 8, soft: 6, factor: LIDS },
])
const warpZ = monotoneWarp([
  { centre: 10, half: 30, soft: 45, factor: FACE },
  { centre: -92, half: 20, soft: 20, factor: EAR },
])

/** The integral of the greatest factor in force, tabulated up to 300 mm. */
export function monotoneWarp(zones: readonly Zone[], from = -450): (at: number) => number {
  const step = 0.1875
  const steps = Math.ceil((300 - from) / step)
  const table = new Float64Array(steps + 2)
  for (let i = 0; i <= steps; i++) {
    const at = from + i * step
    const factors = zones.map(({ centre, half, soft, factor }) => {
      const outside = Math.max(0, Math.abs(at - centre) - half)
      return 1 + (factor - 1) * Math.exp((-outside * outside) / (soft * soft))
    })
    table[i + 1] = table[i] + Math.max(...factors) * step
  }
  return (at) => {
    const u = (at - from) / step
    const i = Math.floor(u)
    return table[i] + (table[i + 1] - table[i]) * (u - i)
  }
}
