import {
  type Canopy,
  type Cloth,
  type Cylinder,
  canopy,
  cosineDisc,
  fillingShaft,
  fluxOf,
  focusOf,
  frontCloth,
  type Lamp,
  type LocalCap,
  landingShare,
  litDiameter,
  mouthReflectance,
  type Rgb,
  STANDARD_DISH,
  selfFormFactor,
} from '../photometry'
import { BOX_CLOTH, grey } from './cloths'
import { choice, length, numberOf, optional } from './fields'
import { ahead, asSolids, DISH, headCylinders, inMetres, turned } from './head'
import type { Finish, GearSolid } from './solids'
import type { BuiltModifier, Field, Modifier, Problem, Shaft } from './types'

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

/** A white cloth from the rim to the dish; its middle is the dish's hole. */
export const FRONT_FIELD: Field = optional(choice('front', 'Cloth over the front', ['none', 'cloth']))

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

/** What the lamp's place on the shaft does. A front cloth sends nothing past the canopy. */
export function shaftOf(modifier: Modifier, isSilver: boolean): Shaft {
  const shape = shapeOf(modifier)
  const { diameterM, depthM, shaftM } = shape
  const canopyShape = { ...shape, lamp: LAMP }
  return {
    lampM: shaftM,
    fillingM: fillingShaft(diameterM, depthM, LAMP.exponent),
    litDiameterM: litDiameter(canopyShape),
    openDiameterM: diameterM,
    spilledShare: modifier.front === 'cloth' ? 0 : 1 - landingShare({ ...canopyShape, side: 'inside' }),
    focusM: isSilver ? focusOf(diameterM, depthM) : null,
  }
}

export interface Reflected {
  readonly cloth: Cloth
  readonly words: string
  readonly inside: Finish
  readonly outside: Rgb
  /** What of the light on the inside shines through the back; left out: none. */
  readonly backCloth?: Cloth
  /** A deep metal one: see Canopy. */
  readonly spreadsAgain?: true
}

type EmitterOf = BuiltModifier['emitters'][number]

/** Lit face: the rim plane. The canopy opens towards the sitter, the lamp shines back into it, in front of the rim or within. */
export function reflectedUmbrella(modifier: Modifier, made: Reflected): BuiltModifier {
  const shape = shapeOf(modifier)
  const lampZ = shape.shaftM - shape.depthM
  const head = headCylinders(lampZ, 1, shape.bodyM)
  const front: Canopy = {
    ...{ ...shape, side: 'inside', lamp: LAMP, cloth: made.cloth, blockers: head },
    ...(made.spreadsAgain ? { spreadsAgain: true } : {}),
  }
  const isCovered = modifier.front === 'cloth'
  const cap: LocalCap = { ...shape, rimCentre: [0, 0, 0], axis: [0, 0, -1] }
  const solids: GearSolid[] = [{ kind: 'cap', ...cap, albedo: made.outside, back: made.inside }, ...asSolids(head)]
  const emitters: EmitterOf[] = [
    isCovered
      ? covered(front, made.cloth, solids.length)
      : { id: 'canopy', part: 'front', frame: ahead(0), emission: canopy(front), cloth: { solid: 0, side: 'back' } },
    ...(made.backCloth ? [throughBack(front, made.backCloth)] : []),
    ...(isCovered || lampZ <= 0 ? [] : [spillOf(front, lampZ)]),
  ]
  return {
    emitters,
    solids: isCovered ? [...solids, frontSheet(shape.diameterM)] : solids,
    litFace: { shape: 'disc', widthM: shape.diameterM, heightM: shape.diameterM },
    tint: [1, 1, 1],
    name: `${made.words} umbrella ${inMetres(shape.diameterM)}${isCovered ? ' with front cloth' : ''}`,
  }
}

const spillOf = (front: Canopy, lampZ: number): EmitterOf => ({
  ...{ id: 'spill', part: 'spill', frame: turned(lampZ), emission: spill(front) },
  cloth: { solid: 1, side: 'front' },
})

/** What the back lets through of the light on the inside. Seen from behind, the lamp stands beyond the apex. */
const throughBack = (front: Canopy, cloth: Cloth): EmitterOf => ({
  ...{ id: 'back', part: 'back', frame: turned(-front.depthM) },
  emission: canopy({ ...front, side: 'outside', cloth, blockers: [] }),
  cloth: { solid: 0, side: 'front' },
})

const FRONT_THICKNESS_M = 0.002

/**
 * The front cloth counts as flat, in the rim plane; really it is drawn in to the dish, which comes through its middle. What
 * would go past the rim meets it from within.
 */
function covered(front: Canopy, cloth: Cloth, solid: number): EmitterOf {
  const { transmittance, reflectance } = BOX_CLOTH
  const formFactor = selfFormFactor(front.diameterM, front.depthM)
  const emission = frontCloth({
    behind: canopy({ ...front, blockers: front.blockers.flatMap(clippedToMouth) }),
    radiusM: front.diameterM / 2,
    holeRadiusM: DISH.outerRadiusM,
    ...{ transmittance, reflectance },
    behindReflectance: mouthReflectance(cloth.diffuse + cloth.specular, formFactor),
    extraFlux: fluxOf(LAMP) * (1 - landingShare(front)),
    blockers: front.blockers.flatMap(clippedBeforeMouth),
  })
  return { id: 'front-cloth', part: 'front', frame: ahead(0), emission, cloth: { solid, side: 'front' } }
}

/** The parts of a cylinder along the axis that lie within the hollow, and before its mouth. */
const clippedToMouth = (body: Cylinder): Cylinder[] =>
  body.from[2] < 0 ? [{ ...body, to: [0, 0, Math.min(body.to[2], 0)] }] : []
const clippedBeforeMouth = (body: Cylinder): Cylinder[] =>
  body.to[2] > FRONT_THICKNESS_M ? [{ ...body, from: [0, 0, Math.max(body.from[2], FRONT_THICKNESS_M)] }] : []

const frontSheet = (diameterM: number): GearSolid => ({
  ...{ kind: 'disc', centre: [0, 0, -FRONT_THICKNESS_M], normal: [0, 0, 1], radiusM: diameterM / 2 },
  albedo: grey(BOX_CLOTH.reflectance),
})

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
