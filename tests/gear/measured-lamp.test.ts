import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { type PhotometricLamp, readEulumdat, readIes } from '../../src/exchange'
import { buildModifier, measuredFigures, measuredModifier, validateModifier } from '../../src/gear'
import { fluxOfTable, intensityTowards, irradianceAt } from '../../src/photometry'
import { directionToLocal, normalize, type Vec3 } from '../../src/space'
import { iesText, ldtText, panel, range, SYMMETRIES, WINGED_LM, winged } from '../exchange/photometric-samples'

const DEG = Math.PI / 180
const built = (lamp: PhotometricLamp) => {
  const modifier = measuredModifier(lamp)
  expect(validateModifier(modifier, 'modifier')).toEqual([])
  return { modifier, ...buildModifier(modifier) }
}
const lumens = (lamp: PhotometricLamp) => {
  const { emitters, steadyCd } = built(lamp)
  return emitters.reduce((sum, { emission }) => sum + emission.flux, 0) * steadyCd!
}
const share = (got: number, expected: number) => Math.abs(got / expected - 1)

const record = (id: string) =>
  JSON.parse(readFileSync('shared/check-values.json', 'utf8')).find((one: { id: string }) => one.id === id)

/** shared/check-values.json IES-SYNTH. */
test('the synthetic file of the check values: its flux, its opening, its name', () => {
  const { inputs, expected } = record('IES-SYNTH')
  const lamp = readIes(inputs.file)
  expect(share(lumens(lamp), expected.avg_times_zonal_5deg_lm)).toBeLessThan(0.005)
  expect(share(lumens(lamp), expected.exact_lm)).toBeLessThan(0.005)
  const { modifier, name } = built(lamp)
  expect(modifier).toMatchObject({ opening: 'rectangle', widthM: 0.6, heightM: 0.6 })
  expect(name).toContain('Lambertian panel')
  expect(measuredFigures(modifier)).toMatchObject({ peakCd: 1000, angles: 19, planes: 2 })
})

/** Flux of the lit face against the zonal method [IESHandbook] and the closed form of the sample. */
describe.each(SYMMETRIES)('symmetry %s', (_, planes, harmonic, code) => {
  const candela = winged(harmonic)
  test.each([
    ['IES', () => readIes(iesText({ planes, angles: range(0, 90, 2.5), candela }))],
    ['EULUMDAT', () => readEulumdat(ldtText({ symmetry: code, candela, angles: range(0, 90, 2.5) }))],
  ] as const)('%s', (_name, read) => {
    const lamp = read()
    expect(share(lumens(lamp), fluxOfTable(lamp.table))).toBeLessThan(0.005)
    expect(share(lumens(lamp), WINGED_LM)).toBeLessThan(0.005)
  })
})

test.each([
  ['TILT=INCLUDE', { tilt: 'TILT=INCLUDE\n1\n3\n0 45 90\n0.9 0.8 0.7' }, 0.9],
  ['feet', { units: 1 as const, size: '2 1 0' }, 1],
  ['multiplier and ballast', { multiplier: 2.5, ballast: 0.8 }, 1],
])('%s', (_, change, factor) => {
  const lamp = readIes(iesText({ planes: [0], angles: range(0, 90, 5), candela: panel, ...change }))
  expect(share(lumens(lamp), fluxOfTable(lamp.table))).toBeLessThan(0.005)
  expect(share(lumens(lamp), factor * 1000 * Math.PI)).toBeLessThan(0.005)
})

test('feet: 2 along the plane of 0° is the width of the frame’s x', () => {
  const order = { planes: [0], angles: range(0, 90, 5), candela: panel, units: 1 as const, size: '1 2 0' }
  const { modifier } = built(readIes(iesText(order)))
  expect(modifier.widthM).toBeCloseTo(0.6096, 4)
  expect(modifier.heightM).toBeCloseTo(0.3048, 4)
})

test('an opening that is a point becomes 1 cm wide', () => {
  const order = { planes: [0], angles: range(0, 90, 5), candela: panel, size: '0 0 0' }
  expect(measuredModifier(readIes(iesText(order)))).toMatchObject({ widthM: 0.01, heightM: 0.01 })
})

/** Cosine squared to both sides of the opening, twice as much upwards: 2π/3 a candela each way. */
const both = (_: number, angle: number) => (angle < 90 ? 1 : 2) * 600 * Math.cos(angle * DEG) ** 2

test('light above the level comes out of the other side', () => {
  const lamp = readIes(iesText({ planes: [0], angles: range(0, 180, 2.5), candela: both }))
  const { emitters, steadyCd } = built(lamp)
  expect(emitters.map(({ part }) => part)).toEqual(['front', 'back'])
  for (const [i, { emission }] of emitters.entries())
    expect(share(emission.flux * steadyCd!, ((i + 1) * 600 * 2 * Math.PI) / 3)).toBeLessThan(0.005)
})

/** From far away E = I/d² in every direction of the table, in whichever frame the face lies. */
test('every direction has the intensity of the file', () => {
  const candela = (plane: number, angle: number) => both(plane, angle) * (1 + 0.4 * Math.cos((plane - 40) * DEG)) + 50
  const lamp = readIes(iesText({ planes: range(0, 360, 15), angles: range(0, 180, 5), candela }))
  const { emitters, steadyCd } = built(lamp)
  const far = 200
  for (const [plane, angle] of [
    [20, 10],
    [110, 60],
    [200, 85],
    [290, 95],
    [340, 150],
  ] as const) {
    const [s, c] = [Math.sin(angle * DEG), Math.cos(angle * DEG)]
    const way: Vec3 = normalize([s * Math.cos(plane * DEG), s * Math.sin(plane * DEG), c])
    const e = emitters.reduce((sum, { frame, emission }) => {
      const local = directionToLocal(frame, way)
      const at = local.map((x) => far * x) as unknown as Vec3
      return sum + irradianceAt(emission, at, local.map((x) => -x) as unknown as Vec3, 16)
    }, 0)
    expect(share(e * far * far * steadyCd!, intensityTowards(lamp.table, way)), `${plane} ${angle}`).toBeLessThan(0.003)
  }
})

/** Near field: an even Lambertian square of half side a at distance d, E = π·F/A a candela, F by Lambert's polygon formula. */
test('before the opening of a panel light is that of an even matt square of its size', () => {
  const lamp = readIes(iesText({ planes: [0], angles: range(0, 90, 1), candela: panel, size: '0.6 0.6 0' }))
  const [{ emission }] = built(lamp).emitters
  for (const d of [0.1, 0.3, 1]) {
    const x = 0.3 / Math.hypot(0.3, d)
    // Four corner rectangles: F = 4·(1/2π)·2·(a/√(a²+d²))·atan(a/√(a²+d²)).
    const factor = (4 / Math.PI) * x * Math.atan(x)
    expect(share(irradianceAt(emission, [0, 0, d], [0, 0, -1], 96), (Math.PI * factor) / 0.36)).toBeLessThan(0.005)
  }
})

/** shared/check-values.json IES-CLASSIC-E: 1000 cd on the axis, 2 m up, 1 m beside its foot. */
test('on a floor under a small panel', () => {
  const { inputs, expected } = record('IES-CLASSIC-E')
  const candela = (plane: number, angle: number) => (inputs.I0 / 1000) * panel(plane, angle)
  const lamp = readIes(iesText({ planes: [0], angles: range(0, 90, 1), candela, size: '0.02 0.02 0' }))
  const { emitters, steadyCd } = built(lamp)
  const e = irradianceAt(emitters[0].emission, [inputs.x_m, 0, inputs.h_m], [0, 0, -1], 16) * steadyCd!
  expect(share(e, expected.E_lx)).toBeLessThan(0.002)
})

test('numbers of a file survive the words in the document to six digits', () => {
  const candela = (plane: number, angle: number) => panel(plane, angle) * (1 + plane / 1000) + 0.123456789
  const lamp = readIes(iesText({ planes: range(0, 180, 22.5), angles: range(0, 90, 2.5), candela }))
  const { emitters, steadyCd } = built(lamp)
  const way = normalize([0.3, 0.2, 0.7] as Vec3)
  const e = irradianceAt(
    emitters[0].emission,
    way.map((x) => 100 * x) as unknown as Vec3,
    way.map((x) => -x) as unknown as Vec3,
    8,
  )
  expect(share(e * 1e4 * steadyCd!, intensityTowards(lamp.table, way))).toBeLessThan(1e-3)
})

/** What readers let through is then a lamp with finite light, or is told by the rules of the document. */
test('a file with a number changed makes a lamp or is refused', () => {
  const words = iesText({ planes: [0, 45, 90], angles: [0, 30, 60, 90], candela: panel }).split(/(?<=\s)/)
  const STRANGE = ['0', '1', '1e-320', '1e8', '0.0001', '89.9999', '360', '-1000', '1000', '45.00001']
  const counts = { lamps: 0, refused: 0 }
  for (const at of words.keys())
    for (const strange of STRANGE) {
      const text = words.map((word, i) => (i === at ? `${strange} ` : word)).join('')
      let lamp: PhotometricLamp
      try {
        lamp = readIes(text)
      } catch {
        continue
      }
      const modifier = measuredModifier(lamp)
      const problems = validateModifier(modifier, 'modifier')
      if (problems.length > 0) {
        expect(problems[0]!.got.length).toBeLessThan(200)
        counts.refused++
        continue
      }
      const { emitters, steadyCd } = buildModifier(modifier)
      for (const { emission } of emitters) {
        expect(Number.isFinite(emission.flux * steadyCd!), text).toBe(true)
        expect(irradianceAt(emission, [0.1, 0.2, 1], [0, 0, -1], 4) >= 0, text).toBe(true)
      }
      counts.lamps++
    }
  expect(counts.lamps).toBeGreaterThan(50)
  expect(counts.refused).toBeGreaterThan(5)
})
