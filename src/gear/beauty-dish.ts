import {
  BARE_DOME_FLUX,
  type Canopy,
  type Comb,
  canopy,
  frontCloth,
  mouthReflectance,
  selfFormFactor,
} from '../photometry'
import { BLACK, BOX_CLOTH, grey, mattOf, silver, silverFinish, WHITE_SATIN } from './cloths'
import { COMB_FIELD, combOf } from './comb'
import { choice, following, length, numberOf, optional, wordOf } from './fields'
import { ahead, asSolids, BODY_RADIUS_M, inCentimetres } from './head'
import type { GearSolid } from './solids'
import type { BuiltModifier, Modifier, ModifierKind, Problem } from './types'

/** White paint of the plate; silver paint of the bowl; thickness of the plate: common practice, no source. */
const PLATE_REFLECTANCE = 0.85
const BOWL_ROUGHNESS = 0.5
const PLATE_M = 0.01
/** From the mouth back, the plate stands at this share of the depth. */
const PLATE_AT = 0.3

/**
 * A shallow bowl whose plate hides the tube and throws its light back into the bowl, as an even matt disc does. So the middle
 * is dark and a bright ring stands round it. Lit face: the mouth, or the cloth drawn over it.
 */
export const beautyDish: ModifierKind = {
  id: 'beauty-dish',
  label: 'Beauty dish, white or silver',
  fields: [
    length('diameterM', 'Opening', 0.55, [0.3, 0.9], [0.4, 0.7]),
    following(length('depthM', 'Depth of the bowl', 0.15, [0.06, 0.35], [0.12, 0.2]), 'diameterM'),
    following(length('deflectorM', 'Plate before the tube', 0.16, [0.08, 0.3], [0.12, 0.2]), 'diameterM'),
    choice('lining', 'Inside', ['white', 'silver']),
    choice('front', 'Cloth over the front', ['none', 'cloth']),
    optional(COMB_FIELD),
    length('bodyM', 'Length of the head behind the dish', 0.3, [0, 0.6], [0.2, 0.45]),
  ],
  build,
  check: (modifier, path): readonly Problem[] => {
    const [width, depth, plate] = ['diameterM', 'depthM', 'deflectorM'].map((id) => numberOf(modifier, id))
    const wrong = (field: string, most: number, what: string, advice: string): Problem => ({
      path: `${path}.${field}`,
      expected: `at most ${what}, ${most.toFixed(2)} m`,
      got: `${field === 'depthM' ? depth : plate} m`,
      advice,
    })
    return [
      ...(depth > width / 2 ? [wrong('depthM', width / 2, 'half of the opening', 'Make it flatter or wider.')] : []),
      ...(plate > 0.6 * width
        ? [wrong('deflectorM', 0.6 * width, '60 % of the opening', 'Take a smaller plate or a wider dish.')]
        : []),
    ]
  },
}

function build(modifier: Modifier): BuiltModifier {
  const [diameterM, depthM, plateM] = ['diameterM', 'depthM', 'deflectorM'].map((id) => numberOf(modifier, id))
  const bodyM = numberOf(modifier, 'bodyM')
  const isSilver = wordOf(modifier, 'lining') === 'silver'
  const hasCloth = wordOf(modifier, 'front') === 'cloth'
  const grid = wordOf(modifier, 'grid')
  const comb = combOf(grid)
  const cloth = isSilver ? silver(BOWL_ROUGHNESS) : WHITE_SATIN
  const plateZ = -PLATE_AT * depthM
  const plate = { from: [0, 0, plateZ], to: [0, 0, plateZ + PLATE_M], radiusM: plateM / 2 } as const
  const bowl: Canopy = {
    ...{ diameterM, depthM, side: 'inside', cloth, blockers: [plate] },
    // A matt disc of flux Φ shines with Φ/π on its axis.
    lamp: { radiusM: plateM / 2, exponent: 1, axialIntensity: (BARE_DOME_FLUX * PLATE_REFLECTANCE) / Math.PI },
    shaftM: depthM + plateZ,
    ...(isSilver ? { spreadsAgain: true } : {}),
  }
  const head = { from: [0, 0, -depthM - 0.005], to: [0, 0, -depthM - bodyM], radiusM: BODY_RADIUS_M } as const
  const inside = isSilver ? silverFinish(BOWL_ROUGHNESS) : mattOf(cloth)
  const solids: GearSolid[] = [
    { kind: 'cap', rimCentre: [0, 0, 0], axis: [0, 0, -1], diameterM, depthM, albedo: BLACK, back: inside },
    { kind: 'cylinder', ...plate, albedo: grey(0.1) },
    ...asSolids(bodyM > 0.01 ? [head] : []),
  ]
  return {
    emitters: [
      {
        id: 'mouth',
        part: 'front',
        frame: ahead(0),
        emission: hasCloth ? overMouth(bowl, comb) : canopy({ ...bowl, ...(comb ? { comb } : {}) }),
        cloth: hasCloth ? { solid: solids.length, side: 'front' } : { solid: 0, side: 'back' },
      },
    ],
    solids: hasCloth ? [...solids, sock(diameterM)] : solids,
    litFace: { shape: 'disc', widthM: diameterM, heightM: diameterM },
    tint: [1, 1, 1],
    name: `${isSilver ? 'silver' : 'white'} beauty dish ${inCentimetres(diameterM)}${withWords(hasCloth, grid)}`,
  }
}

const withWords = (hasCloth: boolean, grid: string): string => {
  const words = [...(hasCloth ? ['cloth'] : []), ...(grid === 'none' ? [] : [`${grid} grid`])]
  return words.length > 0 ? ` with ${words.join(' and ')}` : ''
}

/** A grid stands before the cloth. */
const overMouth = (bowl: Canopy, comb: Comb | null) =>
  frontCloth({
    behind: canopy(bowl),
    radiusM: bowl.diameterM / 2,
    holeRadiusM: 0,
    transmittance: BOX_CLOTH.transmittance,
    reflectance: BOX_CLOTH.reflectance,
    behindReflectance: mouthReflectance(
      bowl.cloth.diffuse + bowl.cloth.specular,
      selfFormFactor(bowl.diameterM, bowl.depthM),
    ),
    ...(comb ? { gate: { kind: 'honeycomb', ...comb } } : {}),
  })

const sock = (diameterM: number): GearSolid => ({
  ...{ kind: 'disc', centre: [0, 0, -0.002], normal: [0, 0, 1], radiusM: diameterM / 2 },
  albedo: grey(BOX_CLOTH.reflectance),
})
