import {
  BARE_DOME_FLUX,
  canopy,
  cosineDisc,
  type Emission,
  equalFluxDish,
  fillingShaft,
  type Gate,
  gatePass,
  integrateFlux,
  STANDARD_DISH,
  selfFormFactor,
  uniformSurface,
} from '../../../src/photometry'
import { normalize, radians, type Vec3 } from '../../../src/space'
import { plainBox } from './boxes'
import { dishOnly, umbrella } from './canopies'
import { type Check, FACING, mattCloth, near, rows, silverCloth, translucentCloth, within } from './check'
import type { Measures } from './measure'

const meanPass = (gate: Gate, widthM: number, direction: Vec3, n = 4000) =>
  Array.from({ length: n }, (_, i) => gatePass(gate, [((i + 0.5) / n - 0.5) * widthM, 0, 0], direction)).reduce(
    (sum, pass) => sum + pass / n,
    0,
  )

const lip: Check = ({ expected, tolerance }) => {
  const gate: Gate = { kind: 'window', zM: 0.05, widthM: 0.6, heightM: 100 }
  return rows(
    'share',
    [30, 45, 60, 75, 80].map((deg) => meanPass(gate, 0.6, [Math.sin(radians(deg)), 0, Math.cos(radians(deg))])),
    expected,
    Number(tolerance),
  )
}

const clothGrid: Check = ({ expected, tolerance }, by) => {
  const cloth = { surface: { shape: 'rectangle', widthM: 0.6, heightM: 0.9 }, luminance: 1 } as const
  const plain = uniformSurface(cloth)
  const grid = uniformSurface({ ...cloth, gate: { kind: 'cells', depthOverWidth: 1 } })
  const loss = [0.5, 1, 1.5, 3].map((d) => by.lossStops(grid, d) - by.lossStops(plain, d))
  return [
    ...rows('loss', loss, expected[0], Number(tolerance)),
    within('flux kept', integrateFlux(grid) / plain.flux, expected[1], Number(tolerance)),
  ]
}

const gridded = (label: number) =>
  cosineDisc({
    ...STANDARD_DISH,
    gate: { kind: 'honeycomb', depthOverWidth: 1 / Math.tan(radians(label)), wallLoss: 0.9 },
  })
const LABELS = [10, 20, 30, 40]

const gridLoss: Check = ({ expected, tolerance }, by) =>
  [1.5, 1].flatMap((d, i) =>
    rows(
      `loss at ${d} m`,
      LABELS.map((label) => by.lossStops(gridded(label), d)),
      expected[i],
      Number(tolerance),
    ),
  )

const gridSpot: Check = ({ expected, tolerance }, by) =>
  rows(
    'diameter',
    LABELS.map((label) => spotDiameter(gridded(label), 1.5, by)),
    expected,
    Number(tolerance),
  )

function spotDiameter(emission: Emission, atM: number, { irradiance }: Measures): number {
  const half = irradiance(emission, [0, 0, atM], FACING, 32) / 2
  let [low, high] = [0, atM]
  for (let step = 0; step < 12; step++) {
    const middle = (low + high) / 2
    if (irradiance(emission, [middle, 0, atM], FACING, 32) > half) low = middle
    else high = middle
  }
  return low + high
}

/**
 * Distance d from the mouth, radius a, before a lamp of radius R. On the axis the mouth shows a·(d + l)/d of the lamp at d + l,
 * so E·d² = (a/R)² and the loss is 2·log₂(R/a): 3.40, 2.23, 1.40. The record's 3.57 and 2.56 come from too coarse a ring
 * quadrature of that small spot and are left out; its third figure holds.
 */
const snoot: Check = ({ expected, tolerance }, by) => {
  const losses = [0.02, 0.03, 0.04].map((radiusM) => {
    const emission = cosineDisc({ ...STANDARD_DISH, radiusM: 0.065, gate: { kind: 'opening', zM: 0.2, radiusM } })
    return -Math.log2(by.irradiance(emission, [0, 0, 1.7], FACING, 128) * 1.5 ** 2)
  })
  return [
    ...rows(
      'closed form',
      losses,
      [0.02, 0.03, 0.04].map((a) => 2 * Math.log2(0.065 / a)),
      0.01,
    ),
    within('8 cm mouth', losses[2], expected[2], Number(tolerance)),
  ]
}

const roomFlux: Check = ({ expected }, by) => {
  const face = (cloth: ReturnType<typeof mattCloth>, side: 'inside' | 'outside' = 'inside') =>
    canopy(umbrella(cloth, { shaftM: 0.45 }, side))
  const through = [face(translucentCloth(0.6, 0.3), 'outside'), face(mattCloth(0.3))]
  const x = (emissions: readonly Emission[]) => by.roomFluxPerFaceLight(emissions, 1.5)
  return [
    near('dish', x([cosineDisc(STANDARD_DISH)]), expected.dish, 0.05),
    near('silver r 0.3', x([face(silverCloth(0.3))]), expected.silver_r03, 0.05),
    near('silver r 0.5', x([face(silverCloth(0.5))]), expected.silver_r05, 0.05),
    near('white', x([face(mattCloth(0.8))]), expected.white, 0.05),
    near('shoot-through', x(through), expected.through, 0.05),
    near('box', x([plainBox(0.6, 0.9, 0.4)]), expected.box60x90, 0.05),
  ]
}

const halfOpenAt = (): number => {
  const gate: Gate = { kind: 'honeycomb', depthOverWidth: 1, wallLoss: 1 }
  let [low, high] = [0, 1]
  for (let step = 0; step < 30; step++) {
    const x = (low + high) / 2
    if (gatePass(gate, [0, 0, 0], normalize([x, 0, 1])) > 0.5) low = x
    else high = x
  }
  return low
}

export const FLAT_CHECKS: readonly (readonly [RegExp, Check])[] = [
  [
    /^EMIT-F$/,
    ({ expected, tolerance }) =>
      rows(
        'F',
        [0.22, 0.4].map((share) => selfFormFactor(1, share)),
        expected,
        Number(tolerance),
      ),
  ],
  [
    /^EMIT-SSTAR$/,
    ({ inputs, expected, tolerance }) =>
      rows(
        's*',
        inputs.D.map((d: number) => fillingShaft(d, 0.22 * d, STANDARD_DISH.exponent)),
        expected,
        Number(tolerance),
      ),
  ],
  [
    /^EMIT-LAMPS$/,
    ({ expected, tolerance }) => {
      const axial = [
        equalFluxDish(110, 0.075).axialIntensity,
        BARE_DOME_FLUX / (2 * Math.PI),
        BARE_DOME_FLUX / (4 * Math.PI),
      ]
      return rows(
        'loss',
        axial.map((i) => -Math.log2(i)),
        expected,
        Number(tolerance),
      )
    },
  ],
  [/^EMIT-X$/, roomFlux],
  [/^EMIT-LIP$/, lip],
  [/^EMIT-CLOTHGRID$/, clothGrid],
  [/^EMIT-HC-T$/, ({ expected, tolerance }) => [within('x', halfOpenAt(), expected, Number(tolerance))]],
  [/^EMIT-HC-LOSS$/, gridLoss],
  [/^EMIT-HC-SPOT$/, gridSpot],
  [/^EMIT-SNOOT$/, snoot],
  // The record leaves out the shaft: 0.48 m is where the beam fills the smallest of its canopies; at 0.54 m r 0.55 loses 1.27.
  [
    /^EMIT-BAND-SILVER$/,
    ({ expected: [low, high] }, by) =>
      [0.45, 0.5, 0.55].map((r) => {
        const loss = by.lossStops(canopy(umbrella(silverCloth(r), { shaftM: 0.48 }, 'inside', dishOnly)), 1.5)
        return within(`r ${r}`, loss, (low + high) / 2, (high - low) / 2)
      }),
  ],
]
