import {
  type Canopy,
  type Cloth,
  canopy,
  cosineDisc,
  fillingShaft,
  fluxOf,
  type Lamp,
  type LocalCap,
  landingShare,
  type Rgb,
  STANDARD_DISH,
} from '../photometry'
import { length, numberOf } from './fields'
import { ahead, asSolids, DISH, headCylinders, inMetres, turned } from './head'
import type { Finish } from './solids'
import type { BuiltModifier, Field, Modifier, Problem } from './types'

/** Lamp in its 65° dish, pointing along the shaft. */
const LAMP: Lamp = { ...STANDARD_DISH, radiusM: DISH.openingRadiusM }
const DIAMETER_M = 0.95
const DEPTH_M = 0.209

const WITH_WIDTH = { follows: 'diameterM' }

/**
 * Common to all umbrellas. The shaft stands where the beam just reaches the rim: s* = h + (D/2)/tan 55.4°, so that depth
 * and shaft in proportion to the width keep the canopy's shape and its light.
 */
export const UMBRELLA_FIELDS: readonly Field[] = [
  length('diameterM', 'Open width, rim to rim', DIAMETER_M, [0.5, 2], [0.75, 1.5]),
  { ...length('depthM', 'Depth of the canopy', DEPTH_M, [0.05, 0.5], [0.15, 0.35]), ...WITH_WIDTH },
  {
    ...length(
      'shaftM',
      'Lamp from the apex',
      round(fillingShaft(DIAMETER_M, DEPTH_M, LAMP.exponent)),
      [0.2, 1],
      [0.25, 0.6],
    ),
    ...WITH_WIDTH,
  },
  length('bodyM', 'Length of the head behind its dish', 0.3, [0, 0.6], [0.2, 0.45]),
]

export function checkUmbrella(modifier: Modifier, path: string): readonly Problem[] {
  const [diameter, depth, shaft] = ['diameterM', 'depthM', 'shaftM'].map((id) => numberOf(modifier, id))
  const problems: Problem[] = []
  if (depth > 0.45 * diameter)
    problems.push({
      path: `${path}.depthM`,
      expected: `at most 45 % of the width, ${(0.45 * diameter).toFixed(2)} m`,
      got: `${depth} m`,
      advice: 'Deeper canopies are no shallow caps: make it flatter or wider.',
    })
  if (shaft < depth + 0.02)
    problems.push({
      path: `${path}.shaftM`,
      expected: `at least ${(depth + 0.02).toFixed(2)} m, so that the lamp stands in front of the rim`,
      got: `${shaft} m`,
      advice: 'Pull the lamp out along the shaft or take a flatter canopy.',
    })
  return problems
}

interface Shape {
  readonly diameterM: number
  readonly depthM: number
  readonly shaftM: number
  readonly bodyM: number
}

const shapeOf = (modifier: Modifier): Shape => ({
  diameterM: numberOf(modifier, 'diameterM'),
  depthM: numberOf(modifier, 'depthM'),
  shaftM: numberOf(modifier, 'shaftM'),
  bodyM: numberOf(modifier, 'bodyM'),
})

/** Lit face: the rim plane. The canopy opens towards the sitter, the lamp stands in front of it and shines back into it. */
export function reflectedUmbrella(
  modifier: Modifier,
  cloth: Cloth,
  words: string,
  { inside, outside }: { readonly inside: Finish; readonly outside: Rgb },
): BuiltModifier {
  const shape = shapeOf(modifier)
  const lampZ = shape.shaftM - shape.depthM
  const head = headCylinders(lampZ, 1, shape.bodyM)
  const front: Canopy = { ...shape, side: 'inside', lamp: LAMP, cloth, blockers: head }
  const cap: LocalCap = { ...shape, rimCentre: [0, 0, 0], axis: [0, 0, -1] }
  return {
    emitters: [
      { id: 'canopy', part: 'front', frame: ahead(0), emission: canopy(front), cloth: { solid: 0, side: 'back' } },
      { id: 'spill', part: 'spill', frame: turned(lampZ), emission: spill(front), cloth: { solid: 1, side: 'front' } },
    ],
    solids: [{ kind: 'cap', ...cap, albedo: outside, back: inside }, ...asSolids(head)],
    litFace: { shape: 'disc', widthM: shape.diameterM, heightM: shape.diameterM },
    tint: [1, 1, 1],
    name: `${words} umbrella ${inMetres(shape.diameterM)}`,
  }
}

/** Lit face: the apex, nearest the sitter. The lamp stands behind and shines through; part comes back, part goes past. */
export function shootThroughUmbrella(
  modifier: Modifier,
  frontCloth: Cloth,
  backCloth: Cloth,
  albedo: Rgb,
): BuiltModifier {
  const shape = shapeOf(modifier)
  const front: Canopy = { ...shape, side: 'outside', lamp: LAMP, cloth: frontCloth, blockers: [] }
  const back: Canopy = {
    ...shape,
    side: 'inside',
    lamp: LAMP,
    cloth: backCloth,
    blockers: headCylinders(shape.shaftM - shape.depthM, 1, shape.bodyM),
  }
  const cap: LocalCap = { ...shape, rimCentre: [0, 0, -shape.depthM], axis: [0, 0, 1] }
  return {
    emitters: [
      { id: 'canopy', part: 'front', frame: ahead(0), emission: canopy(front), cloth: { solid: 0, side: 'front' } },
      {
        id: 'inside',
        part: 'back',
        frame: turned(-shape.depthM),
        emission: canopy(back),
        cloth: { solid: 0, side: 'back' },
      },
      {
        id: 'spill',
        part: 'spill',
        frame: ahead(-shape.shaftM),
        emission: spill(front),
        cloth: { solid: 1, side: 'front' },
      },
    ],
    solids: [{ kind: 'cap', ...cap, albedo }, ...asSolids(headCylinders(-shape.shaftM, -1, shape.bodyM))],
    litFace: { shape: 'disc', widthM: shape.diameterM, heightM: shape.diameterM },
    tint: [1, 1, 1],
    name: `shoot-through umbrella ${inMetres(shape.diameterM)}`,
  }
}

/** Lamp light that misses the cloth. Seen from the lamp, the cap's apex lies straight ahead at the shaft's length. */
function spill(lit: Canopy) {
  const cap: LocalCap = { ...lit, rimCentre: [0, 0, lit.shaftM - lit.depthM], axis: [0, 0, 1] }
  return cosineDisc({ ...LAMP, gate: { kind: 'past-cap', cap }, flux: fluxOf(LAMP) * (1 - landingShare(lit)) })
}

function round(metres: number): number {
  return Math.round(metres * 100) / 100
}
