import { expect, test } from 'vitest'
import { crossProfile, irradianceAt, type LitSurface, uniformSurface } from '../../../src/photometry'
import { FACING } from './check'
import { BY_AREA } from './measure'

const { litDiameter, momentDiameter } = BY_AREA

const even = (surface: LitSurface) => uniformSurface({ surface, luminance: 1 })
const DISC = even({ shape: 'disc', radiusM: 0.45 })
const SQUARE = even({ shape: 'rectangle', widthM: 0.9, heightM: 0.9 })
const FAR = 20

/**
 * Running sum of an even disc across it: share below x is (½ + (x√(1−x²) + asin x)/π), so 10–90 % spans 0.687 of the width;
 * of a square it is 0.8. Closed forms; far away, where cos³ of the view no longer counts.
 */
test.each([
  ['disc', DISC, 0.687],
  ['square', SQUARE, 0.8],
])('penumbra of an even %s', (_, emission, share) => {
  const { fullPerGap, tenToNinetyPerGap, slopeAt } = crossProfile(emission, [0, 0, FAR], [1, 0, 0], 160)
  // The outermost of 160 patches' middles, less than one patch from the rim at each end.
  expect(Math.abs((fullPerGap * FAR) / 0.9 - 1)).toBeLessThan(0.0125)
  expect(Math.abs((tenToNinetyPerGap * FAR) / 0.9 / share - 1)).toBeLessThan(0.01)
  expect(Math.abs(slopeAt(0.5) * FAR)).toBeLessThan(0.01)
})

/**
 * The running sum of a square turned by φ is that of a trapezium cos φ + sin φ sides wide (geometry). At the 40 patches along a side with which the meter asks; 1 %, and 3 % at a draft's 20.
 */
test.each([
  [40, 0.01],
  [20, 0.03],
])('penumbra of an even square at any turn, %i patches along a side: within %d', (n, bar) => {
  for (let deg = 0; deg <= 90; deg += 3) {
    const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)]
    const [base, flank] = [c + s, Math.min(c, s)]
    const chord = Math.max(c, s)
    // Share below a place t from the end: t²/(2·flank·chord) on the flank, then linear.
    const onFlank = Math.sqrt(0.2 * flank * chord)
    const tenth = onFlank < flank ? onFlank : 0.1 * chord + flank / 2
    const { tenToNinetyPerGap } = crossProfile(SQUARE, [0, 0, FAR], [c, s, 0], n)
    expect(Math.abs((tenToNinetyPerGap * FAR) / 0.9 / (base - 2 * tenth) - 1), `${deg}°`).toBeLessThan(bar)
  }
})

test('an even disc holds 90 % of its light in √0.9 of its diameter, and its moment diameter is its own', () => {
  expect(litDiameter(DISC, [0, 0, FAR])).toBeCloseTo(0.9 * Math.sqrt(0.9), 2)
  expect(momentDiameter(DISC, [0, 0, FAR])).toBeCloseTo(0.9, 2)
})

/** J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors: disc and facing element, on and off its axis. */
test.each([
  [[0, 0, 1.5], 0.0825688073],
  [[0.3, 0, 1.5], 0.07725554848],
] as const)('even disc of 0.9 m at %s', (at, factor) => {
  expect(Math.abs(irradianceAt(DISC, at, FACING, 96) / Math.PI / factor - 1)).toBeLessThan(5e-4)
})

/** Lambert's formula for a facing rectangle 0.6 × 0.9 m at 1.5 m: four corner factors, RAD-RECT-PAR-4 times four. */
test('even rectangle', () => {
  const [a, b] = [0.3 / 1.5, 0.45 / 1.5]
  const corner = (x: number, y: number) => (x / Math.hypot(1, x)) * Math.atan(y / Math.hypot(1, x))
  const factor = (4 * (corner(a, b) + corner(b, a))) / (2 * Math.PI)
  const e = irradianceAt(even({ shape: 'rectangle', widthM: 0.6, heightM: 0.9 }), [0, 0, 1.5], FACING, 96)
  expect(Math.abs(e / Math.PI / factor - 1)).toBeLessThan(5e-4)
})
