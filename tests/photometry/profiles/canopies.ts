import {
  type Canopy,
  type Cloth,
  type Cylinder,
  canopy,
  exchangeIlluminance,
  fluxOf,
  type Lamp,
  landingShare,
  STANDARD_DISH,
} from '../../../src/photometry'
import type { Vec3 } from '../../../src/space'
import {
  type Check,
  type Comparison,
  FACING,
  irradianceByFlux,
  mattCloth,
  near,
  rows,
  silverCloth,
  translucentCloth,
  type ValueRecord,
  within,
} from './check'
import { hotCentreStops } from './measure'

const lamp = (radiusM: number): Lamp => ({ ...STANDARD_DISH, radiusM })
/** A disc of no thickness, or the dish of set B; both stand in front of the rim plane of a reflected umbrella. */
const discOnly = (zM: number): Cylinder[] => [{ from: [0, 0, zM], to: [0, 0, zM + 1e-4], radiusM: 0.05 }]
export const dishOnly = (zM: number): Cylinder[] => [{ from: [0, 0, zM], to: [0, 0, zM + 0.12], radiusM: 0.1 }]

export function umbrella(
  cloth: Cloth,
  shape: { diameterM?: number; depthM?: number; shaftM: number; radiusM?: number },
  side: Canopy['side'] = 'inside',
  blockers: (zM: number) => Cylinder[] = () => [],
): Canopy {
  const { diameterM = 0.95, shaftM, radiusM = 0.09 } = shape
  const depthM = shape.depthM ?? 0.22 * diameterM
  return {
    ...{ diameterM, depthM, shaftM, cloth, side, lamp: lamp(radiusM) },
    blockers: side === 'inside' ? blockers(shaftM - depthM) : [],
  }
}

/** Places across the cloth in the area route. */
const ACROSS = 64
const GAP_M = 0.025

export const SET_A = { depthM: 0.209, shaftM: 0.5, radiusM: 0.05 }

export function setA({ inputs }: ValueRecord): Canopy {
  if (inputs.kind === 'translucent') return umbrella(translucentCloth(inputs.tau, inputs.rho), SET_A, 'outside')
  const cloth = inputs.kind === 'silver' ? silverCloth(inputs.roughness) : mattCloth(0.8)
  return umbrella(cloth, SET_A, 'inside', discOnly)
}

export function place(words: string): Vec3 {
  const axis = words.match(/^axis ([\d.]+) m$/)
  if (axis) return [0, 0, Number(axis[1])]
  const aside = words.match(/^([\d.]+) m aside, ([\d.]+) m out$/)
  if (aside) return [Number(aside[1]), 0, Number(aside[2])]
  throw new Error(`no place in "${words}"`)
}

const tolerance = ({ tolerance }: ValueRecord): number => Number.parseFloat(String(tolerance)) / 100

/** Set A, both routes; the reference traces one bounce of silver, so the 8 % of the far places are the record's own. */
const pointOfSetA: Check = (record, by) => {
  const emission = canopy(setA(record))
  const at = place(record.inputs.receiverAt)
  return [
    near('E', by.irradiance(emission, at, FACING, ACROSS), record.expected, tolerance(record)),
    near('flux route', irradianceByFlux(emission, at, FACING, 8192), record.expected, tolerance(record)),
  ]
}

/** Behind a shoot-through: what the lamp's side gives back, and the outside's edges, seen from 1 m aside and 2 m behind the apex. */
const behindShootThrough: Check = (record, by) => {
  const back = canopy(umbrella(mattCloth(0.3), SET_A, 'inside', discOnly))
  const front = canopy(setA(record))
  const turnedPlace: Vec3 = [1, 0, 2 - SET_A.depthM]
  const sum = by.irradiance(back, turnedPlace, FACING, ACROSS) + by.irradiance(front, [1, 0, -2], [0, 0, 1], ACROSS)
  return [near('E', sum, record.expected, tolerance(record))]
}

const exchange: Check = (record) => [
  near('closed form', exchangeIlluminance(setA(record)), record.expected, tolerance(record)),
]

export function setB({ inputs }: ValueRecord): Canopy {
  const shape = { diameterM: inputs.D, depthM: inputs.D * inputs.depthShare, shaftM: inputs.s }
  if (inputs.kind === 'trans') return umbrella(translucentCloth(inputs.tau, inputs.rho), shape, 'outside')
  const cloth = inputs.kind === 'silver' ? silverCloth(inputs.roughness) : mattCloth(inputs.rho)
  return umbrella(cloth, shape, 'inside', dishOnly)
}

/** The stand stays where the bare dish would have stood, 1.5 m from the face, and the head is turned round on it. */
export const unmovedDistance = ({ side, shaftM, depthM }: Canopy): number =>
  side === 'inside' ? 1.5 + shaftM - depthM : 1.5 - shaftM

const lossesAndSizes: Check = (record, by) => {
  const { expected } = record
  const parameters = setB(record)
  const emission = canopy(parameters)
  const unmoved = unmovedDistance(parameters)
  const edge = by.edge(emission, [0, 0, 1 - GAP_M])
  const at: Vec3 = [0, 0, 1]
  const losses: Comparison[] = [
    within('loss at 1 m', by.lossStops(emission, 1, ACROSS), expected.loss1m, 0.05),
    within('loss at 1.5 m', by.lossStops(emission, 1.5, ACROSS), expected.loss15m, 0.05),
    within('loss at 3 m', by.lossStops(emission, 3, ACROSS), expected.loss3m, 0.05),
    within('loss far away', by.lossStops(emission, 100, ACROSS), expected.lossFar, 0.05),
    within(
      'loss at 1.5 m by the flux route',
      -Math.log2(irradianceByFlux(emission, [0, 0, 1.5]) * 1.5 ** 2),
      expected.loss15m,
      0.05,
    ),
    within(
      'loss with the stand unmoved',
      by.lossStops(emission, unmoved, ACROSS) + 2 * Math.log2(unmoved / 1.5),
      expected.lossUnmoved15m,
      0.05,
    ),
  ]
  return [
    ...losses,
    within('half-power angle', by.halfPowerFullAngle(emission, 32), expected.halfPowerFullDeg, 4),
    within('spill', 1 - landingShare(parameters), expected.spill, 0.002),
    within('hot centre', hotCentreStops(emission, at), expected.hotStopsApexToRim, 0.2),
    near('lit diameter', by.litDiameter(emission, at, 0.9, ACROSS), expected.D90, 0.03),
    near('moment diameter', by.momentDiameter(emission, at, ACROSS), expected.D2ndMoment, 0.03),
    near('10-90 % edge', edge.tenToNinetyPerGap * GAP_M * 1000, expected.edge1090mmGap25, 0.03),
    near('full edge', edge.fullPerGap * GAP_M * 1000, expected.edgeFullmmGap25, 0.03),
  ]
}

const shaft45 = (cloth: Cloth, blockers?: (zM: number) => Cylinder[], side?: Canopy['side']) =>
  canopy(umbrella(cloth, { shaftM: 0.45 }, side, blockers))

const lampSize: Check = ({ expected }, by) =>
  [0.2, 0.3, 0.5].flatMap((roughness, i) =>
    rows(
      `r ${roughness}`,
      [0.01, 0.03, 0.05, 0.09].map((radiusM) =>
        by.lossStops(canopy(umbrella(silverCloth(roughness), { shaftM: 0.45, radiusM })), 1, 40),
      ),
      expected[i],
      0.08,
    ),
  )

const edgesClose: Check = ({ expected }, by) => {
  const width = (cloth: Cloth, side: Canopy['side'], at: number) =>
    by.edge(shaft45(cloth, dishOnly, side), [0, 0, at - GAP_M], 160).tenToNinetyPerGap * GAP_M * 1000
  const through = [0.35, 0.5, 1].map((at) => width(translucentCloth(0.6, 0.3), 'outside', at))
  const white = [0.75, 1, 1.5].map((at) => width(mattCloth(0.8), 'inside', at))
  return [
    ...through.map((value, i) => near(`shoot-through [${i}]`, value, expected[0][i], 0.03)),
    ...white.map((value, i) => near(`white [${i}]`, value, expected[1][i], 0.03)),
  ]
}

const occlusion: Check = ({ expected }, by) => {
  const white = mattCloth(0.8)
  // The record leaves out the body's radius: 66 mm brings both its figures out, and 1 mm is worth 0.05 stop.
  const body = (zM: number): Cylinder[] => [
    ...dishOnly(zM),
    { from: [0, 0, zM], to: [0, 0, zM + 0.45], radiusM: 0.066 },
  ]
  const dish = [1, 1.5, 3].map(
    (d) => by.lossStops(shaft45(white, dishOnly), d, 128) - by.lossStops(shaft45(white), d, 128),
  )
  const more = [0.45, 0.55].map((shaftM) => {
    const loss = (blockers: typeof body) =>
      by.lossStops(canopy(umbrella(white, { shaftM }, 'inside', blockers)), 1, 128)
    return loss(body) - loss(dishOnly)
  })
  return [...rows('dish', dish, expected[0], 0.05), ...rows('body', more, expected[1], 0.05)]
}

const interreflection: Check = ({ expected, tolerance }, by) =>
  rows(
    'gain',
    [0.22, 0.4].map((share) => {
      const loss = (exchange: number) =>
        by.lossStops(
          canopy(umbrella({ ...mattCloth(0.8), exchange }, { depthM: 0.95 * share, shaftM: 0.45 })),
          1,
          ACROSS,
        )
      return loss(0) - loss(0.8)
    }),
    expected,
    Number(tolerance),
  )

const deepOf = (cloth: Cloth, shaftM: number) =>
  umbrella(cloth, { depthM: 0.38, shaftM, radiusM: 0.05 }, 'inside', discOnly)
const deep = (cloth: Cloth, shaftM: number) => canopy(deepOf(cloth, shaftM))

const flux: Check = ({ expected, tolerance }) => {
  const parameters = umbrella(translucentCloth(0.55, 0.3), { shaftM: 0.45 }, 'outside')
  const front = canopy(parameters)
  const back = canopy(umbrella(mattCloth(0.3), { shaftM: 0.45 }))
  // Forward means into the half space ahead: a patch of matt cloth tilted by t sends (1 − cos t)/2 of its light behind it.
  const n = 64
  let behind = 0
  for (let i = 0; i < n; i++) {
    const at = front.at((i + 0.5) / n, 0)
    behind += (front.luminance(at, at.normal) * Math.PI * at.areaM2 * (1 - at.normal[2])) / 2 / n
  }
  const total = fluxOf(parameters.lamp)
  const spill = 1 - landingShare(parameters)
  const [forward, backward] = [(front.flux - behind) / total, (back.flux + behind) / total]
  return rows('share', [forward, backward, spill, 1 - forward - backward - spill], expected, Number(tolerance))
}

export const SATIN: Cloth = { ...mattCloth(0.65), specular: 0.2, roughness: 0.55 }
export const SATIN_SHAFTS_M = [0.45, 0.537] as const

/**
 * The record leaves the sheen out of the light inside the canopy: traced (traced.test.ts) it is 0.075 and 0.068 stop brighter, ours 0.059
 * and 0.052. Its spreads, 100 and 105°, are those of the canopy without its dish, which takes from the middle: with it 106 and 111°,
 * traced as well.
 */
const satin: Check = ({ expected }, by) =>
  SATIN_SHAFTS_M.flatMap((shaftM, i) => {
    const bare = canopy(umbrella(SATIN, { shaftM }))
    const besideDish = canopy(umbrella(SATIN, { shaftM }, 'inside', dishOnly))
    return [
      within(`loss at s ${shaftM}`, by.lossStops(besideDish, 1.5, ACROSS), expected[i][0], 0.07),
      within(`half power at s ${shaftM}, no dish`, by.halfPowerFullAngle(bare, 32), expected[i][1], 4),
    ]
  })

export const CANOPY_CHECKS: readonly (readonly [RegExp, Check])[] = [
  [/^EMIT-A-trans-backside/, behindShootThrough],
  [/^EMIT-A-.*-EX$/, exchange],
  [
    /^EMIT-A-PHIIN$/,
    ({ expected, tolerance }) => [
      within('share', landingShare(umbrella(mattCloth(0.8), SET_A)), expected, Number(tolerance)),
    ],
  ],
  [/^EMIT-A-/, pointOfSetA],
  [/^EMIT-B-/, lossesAndSizes],
  [/^EMIT-LAMPSIZE$/, lampSize],
  [/^EMIT-EDGE-CLOSE$/, edgesClose],
  [/^EMIT-OCC$/, occlusion],
  [/^EMIT-MB$/, interreflection],
  [
    /^EMIT-DEEPWHITE$/,
    ({ expected, tolerance }, by) =>
      rows(
        'loss',
        [1, 1.5].map((d) => by.lossStops(deep(mattCloth(0.8), 0.4), d, 128)),
        expected,
        Number(tolerance),
      ),
  ],
  [
    /^EMIT-DEEPSILVER$/,
    ({ expected }, by) =>
      [0.3, 0.5].flatMap((r, i) =>
        rows(
          `r ${r}`,
          [1, 1.5].map((d) => by.lossStops(canopy({ ...deepOf(silverCloth(r), 0.3), spreadsAgain: true }), d, 128)),
          expected[i],
          0.05,
        ),
      ),
  ],
  [/^EMIT-BACK$/, flux],
  [/^EMIT-SATIN$/, satin],
]
