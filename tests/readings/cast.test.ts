import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { addMeterPlace, type Sitting, setCamera, setHead } from '../../src/sitting'
import { lamp, setOf, stopsBetween, take } from './set'

/** CIE 15: x, y of illuminants A (2856 K) and D55 (5503 K). */
const A = [0.44757, 0.40745] as const
const D55 = [0.33242, 0.34743] as const
type Xy = readonly [number, number]

/** Grassmann: luminances add, X = Y·x/y, Z = Y·(1 − x − y)/y. */
function mixed(parts: readonly (readonly [xy: Xy, y: number])[]): Xy {
  const sum = (of: (xy: Xy) => number) => parts.reduce((all, [xy, y]) => all + y * of(xy), 0)
  const [x, y, z] = [sum(([a, b]) => a / b), sum(() => 1), sum(([a, b]) => (1 - a - b) / b)]
  return [x / (x + y + z), y / (x + y + z)]
}

/** The Planckian locus in CIE 1960 u, v: M. Krystek, Color Res. Appl. 10 (1985) 38, good to 8e-5 from 1000 to 15 000 K; from memory. */
const locus = (t: number): Xy => [
  (0.860117757 + 1.54118254e-4 * t + 1.28641212e-7 * t * t) / (1 + 8.42420235e-4 * t + 7.08145163e-7 * t * t),
  (0.317398726 + 4.22806245e-5 * t + 4.20481691e-8 * t * t) / (1 - 2.89741816e-5 * t + 1.61456053e-7 * t * t),
]
/** By the definition in CIE 15: the temperature whose point on the locus lies nearest in u, v; mired. */
function miredOf([x, y]: Xy): number {
  const [u, v] = [(4 * x) / (-2 * x + 12 * y + 3), (6 * y) / (-2 * x + 12 * y + 3)]
  let [best, least] = [0, Number.POSITIVE_INFINITY]
  for (let mired = 100; mired <= 500; mired += 0.1) {
    const [a, b] = locus(1e6 / mired)
    const away = Math.hypot(u - a, v - b)
    if (away < least) [best, least] = [mired, away]
  }
  return best
}
/** McCamy's cubic against that definition, from 2500 to 9500 K. */
const TOLERANCE = 1.5

const flash = lamp('A', { az: 30, el: 10, d: 1.6 })
const tungsten = lamp('B', { az: -40, el: 10, d: 1.6, role: 'fill', modifier: defaultModifier('modelling-lamp') })
const set = setHead(
  setCamera(setHead(setOf([flash, tungsten], { reExpose: 'nothing' }), 'source-A', { colourTemperatureK: 5503 }), {
    shutterS: 1 / 8,
  }),
  'source-B',
  { colourTemperatureK: 2856, powerStops: 0 },
)

/** Steady light against flash at a place, a ratio, by meters there. */
function steadyOverFlash(sitting: Sitting, landmark: string): number {
  const shown = (counts: 'flash' | 'steady') => {
    const at = { sitterId: sitting.sitters[0]!.id, landmark }
    const made = addMeterPlace(sitting, { at, receptor: 'disc', facing: 'square', counts })
    return take(made.sitting).value(`place.${made.id}`)
  }
  return 2 ** stopsBetween(shown('flash'), shown('steady'))
}

test('the black frame has the steady lamp’s own colour: 10⁶/2856 − 10⁶/5503 mired', () => {
  const { value, of } = take(set)
  expect(Math.abs(value('camera.cast.blackFrame') - (1e6 / 2856 - 1e6 / 5503))).toBeLessThan(TOLERANCE)
  expect(of('camera.cast.blackFrame').sentence).toMatch(/warmer, to be seen/)
  // Whatever the balance: it colours the record, not the light.
  const other = take(setCamera(set, { balanceK: 3400 }))
  for (const id of ['blackFrame', 'near', 'far'])
    expect(Math.abs(other.value(`camera.cast.${id}`) - value(`camera.cast.${id}`)), id).toBeLessThan(1e-6)
})

test('cast at both cheeks: the mixture of A and D55 by their shares, by the definition of colour temperature', () => {
  for (const shutterS of [1 / 8, 1 / 60]) {
    const sitting = setCamera(set, { shutterS })
    const { value } = take(sitting)
    const near = 2 ** value('camera.blackFrame')
    const cast = (share: number) =>
      miredOf(
        mixed([
          [D55, 1],
          [A, share],
        ]),
      ) - miredOf(D55)
    expect(Math.abs(value('camera.cast.near') - cast(near))).toBeLessThan(TOLERANCE)
    // The key stands at camera right, so the far cheek is the sitter's right one.
    const far = steadyOverFlash(sitting, 'cheekRight')
    expect(far, 'the flash falls less there').toBeGreaterThan(near)
    expect(Math.abs(value('camera.cast.far') - cast(far))).toBeLessThan(TOLERANCE)
  }
})

test('a modelling lamp left on: its share under the flash is the share of its colour', () => {
  const modelling = { lamp: 'halogen' as const, powerW: 300, colourTemperatureK: 2856, followsDial: false }
  const sitting = setCamera(
    setHead(setOf([flash], { reExpose: 'nothing' }), 'source-A', { colourTemperatureK: 5503, modelling }),
    {
      shutterS: 1 / 4,
    },
  )
  const { value, of } = take(sitting)
  const share = 2 ** value('modelling.share')
  expect(
    Math.abs(
      value('modelling.cast') -
        (miredOf(
          mixed([
            [D55, 1],
            [A, share],
          ]),
        ) -
          miredOf(D55)),
    ),
  ).toBeLessThan(TOLERANCE)
  expect(of('modelling.cast').band).toMatchObject({ unit: 'mired', basis: 'guessed' })
})

test('no cast without both; a deep gel has no colour temperature (CIE 15: farther than 0.05 off the locus)', () => {
  const ids = (sitting: Sitting) => take(sitting).readings.map(({ id }) => id)
  expect(ids(setOf([flash], { reExpose: 'nothing' })).filter((id) => id.startsWith('camera.cast'))).toEqual([])
  const green = take(setHead(set, 'source-B', { gelColour: [0, 1, 0] })).of('camera.cast.blackFrame')
  expect(green.value).toBeNull()
  expect(green.sentence).toMatch(/no colour temperature/)
})
