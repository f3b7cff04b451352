import { fluxOfTable, type IntensityGrid, type IntensityTable, intensityGrid, intensityLamp } from '../photometry'
import { grey } from './cloths'
import { choice, length, numberOf, text, wordOf } from './fields'
import { ahead, inCentimetres, turned } from './head'
import { MOST_CHARACTERS, TABLE_ROWS, tableOf, tableProblems, tableWords } from './intensity-words'
import type { BuiltModifier, Modifier, ModifierKind } from './types'

/** Diffuser or louvre in other light: common practice, no source. */
const ALBEDO = grey(0.5)
/** Between the two faces of an opening that shines both ways. */
const THICK_M = 0.004
/** A point, or a line, is given this width: there is no file of a wider one that says so. */
const LEAST_OPENING_M = 0.01

/** A Lambertian panel of 1000 cd, until a file is read. */
const PLAIN: IntensityTable = {
  planesDeg: [0, 360],
  anglesDeg: Array.from({ length: 19 }, (_, i) => 5 * i),
  candela: [0, 360].map(() => Array.from({ length: 19 }, (_, i) => (i < 18 ? 1000 * Math.cos((Math.PI * i) / 36) : 0))),
}
const plain = tableWords(PLAIN)

/** A luminaire as a file in LM-63 or EULUMDAT has it: its intensities stand in the modifier, so that a sitting is whole. */
export const measuredLamp: ModifierKind = {
  id: 'measured-lamp',
  label: 'Measured lamp, from a file',
  burnsOn: true,
  fields: [
    text('name', 'Name in the file', 'plain panel', 80),
    choice('opening', 'Luminous opening', ['rectangle', 'disc']),
    length('widthM', 'Opening in the plane of 0°, or its diameter', 0.6, [0.005, 4], [0.02, 1.5]),
    length('heightM', 'Opening in the plane of 90°', 0.6, [0.005, 4], [0.02, 1.5]),
    text('planesDeg', TABLE_ROWS.planesDeg, plain.planesDeg, MOST_CHARACTERS),
    text('anglesDeg', TABLE_ROWS.anglesDeg, plain.anglesDeg, MOST_CHARACTERS),
    text('candela', TABLE_ROWS.candela, plain.candela, MOST_CHARACTERS),
  ],
  check: tableProblems,
  build: (modifier) => {
    const { grid } = known(modifier)
    const lit = (['front', 'back'] as const)
      .map((side) => ({ side, emission: intensityLamp({ surface: surfaceOf(modifier), grid, side }) }))
      .filter(({ emission }) => emission.flux > 0)
    return {
      emitters: lit.map(({ side, emission }) => ({
        id: side,
        part: side,
        frame: side === 'front' ? ahead(0) : turned(-THICK_M),
        emission,
        cloth: { solid: 0, side },
      })),
      solids: [plate(modifier)],
      litFace: { shape: shapeOf(modifier), ...sizeOf(modifier) },
      steadyCd: grid.peak,
      tint: [1, 1, 1],
      name: `${wordOf(modifier, 'name')}, ${opening(modifier)}`,
    }
  },
}

const shapeOf = (modifier: Modifier) => (wordOf(modifier, 'opening') === 'disc' ? 'disc' : 'rectangle')

function sizeOf(modifier: Modifier): { readonly widthM: number; readonly heightM: number } {
  const widthM = numberOf(modifier, 'widthM')
  return { widthM, heightM: shapeOf(modifier) === 'disc' ? widthM : numberOf(modifier, 'heightM') }
}

function surfaceOf(modifier: Modifier) {
  const { widthM, heightM } = sizeOf(modifier)
  return shapeOf(modifier) === 'disc'
    ? ({ shape: 'disc', radiusM: widthM / 2 } as const)
    : ({ shape: 'rectangle', widthM, heightM } as const)
}

function plate(modifier: Modifier): BuiltModifier['solids'][number] {
  const { widthM, heightM } = sizeOf(modifier)
  const centre = [0, 0, -THICK_M / 2] as const
  return shapeOf(modifier) === 'disc'
    ? { kind: 'disc', centre, normal: [0, 0, 1], radiusM: widthM / 2, albedo: ALBEDO }
    : { kind: 'rectangle', rect: { centre, halfU: [widthM / 2, 0, 0], halfV: [0, heightM / 2, 0] }, albedo: ALBEDO }
}

function opening(modifier: Modifier): string {
  const { widthM, heightM } = sizeOf(modifier)
  return shapeOf(modifier) === 'disc'
    ? `round, ${inCentimetres(widthM)}`
    : `${Math.round(widthM * 100)} × ${inCentimetres(heightM)}`
}

interface Known {
  readonly table: IntensityTable
  readonly grid: IntensityGrid
}

/** Tables that were read before: a changed opening asks for the same one again. */
const read = new Map<string, Known>()
const KEPT = 8

function known(modifier: Modifier): Known {
  const key = [modifier.planesDeg, modifier.anglesDeg, modifier.candela].join('|')
  const before = read.get(key)
  if (before) return before
  const table = tableOf(modifier)
  const made = { table, grid: intensityGrid(table) }
  const [oldest] = read.keys()
  if (read.size >= KEPT && oldest !== undefined) read.delete(oldest)
  read.set(key, made)
  return made
}

/** What the table of a modifier that is valid holds: its flux by the zonal method, lm; its brightest intensity, cd; its size. */
export function measuredFigures(modifier: Modifier) {
  const { table, grid } = known(modifier)
  return {
    fluxLm: fluxOfTable(table),
    peakCd: grid.peak,
    planes: table.planesDeg.length,
    angles: table.anglesDeg.length,
  }
}

/** A luminaire as a reader of files gives it; lengthM lies in the plane of 0°, widthM across it. */
export interface MeasuredLuminaire {
  readonly name: string
  readonly table: IntensityTable
  readonly opening: { readonly shape: 'rectangle' | 'disc'; readonly widthM: number; readonly lengthM: number }
}

/** The modifier that holds it. Not judged here: validateModifier is for that. */
export function measuredModifier({ name, table, opening: { shape, widthM, lengthM } }: MeasuredLuminaire): Modifier {
  const side = (m: number) => Math.max(LEAST_OPENING_M, Math.round(m * 1e4) / 1e4)
  return {
    kind: measuredLamp.id,
    name,
    opening: shape,
    widthM: side(lengthM),
    heightM: side(widthM),
    ...tableWords(table),
  }
}
