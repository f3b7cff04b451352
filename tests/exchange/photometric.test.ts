import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { PhotometricFileError, type PhotometricLamp, readEulumdat, readIes } from '../../src/exchange'
import { fluxOfTable, intensityTowards, openingLuminance } from '../../src/photometry'
import { hash32, normalize, type Vec3 } from '../../src/space'
import { iesText, ldtText, panel, range, SYMMETRIES, WINGED_LM, winged } from './photometric-samples'

const DEG = Math.PI / 180
const towards = (plane: number, angle: number): Vec3 => [
  Math.sin(angle * DEG) * Math.cos(plane * DEG),
  Math.sin(angle * DEG) * Math.sin(plane * DEG),
  Math.cos(angle * DEG),
]
const near = (got: number, expected: number, share: number) => expect(Math.abs(got / expected - 1)).toBeLessThan(share)

/** shared/check-values.json IES-SYNTH: a Lambertian panel of our own. */
test('the synthetic file of the check values', () => {
  const record = JSON.parse(readFileSync('shared/check-values.json', 'utf8')).find(
    ({ id }: { id: string }) => id === 'IES-SYNTH',
  )
  const lamp = readIes(record.inputs.file)
  expect(fluxOfTable(lamp.table)).toBeCloseTo(record.expected.avg_times_zonal_5deg_lm, 2)
  expect(lamp.lampFluxLm).toBeNull()
  expect(lamp.opening).toEqual({ shape: 'rectangle', widthM: 0.6, lengthM: 0.6 })
  expect(lamp.name).toBe('Lambertian panel, 1000 cd on axis')
})

describe.each(SYMMETRIES)('symmetry %s', (_, planes, harmonic, code) => {
  const candela = winged(harmonic)
  const lamps: readonly (readonly [string, () => PhotometricLamp])[] = [
    ['IES', () => readIes(iesText({ planes, angles: range(0, 90, 2.5), candela }))],
    ['EULUMDAT', () => readEulumdat(ldtText({ symmetry: code, candela, angles: range(0, 90, 2.5) }))],
  ]
  test.each(lamps)(
    '%s: flux by the zonal method within 0.5 %% of the closed form, intensity where it was not measured',
    (_, read) => {
      const { table } = read()
      near(fluxOfTable(table), WINGED_LM, 0.005)
      for (const plane of [7, 100, 190, 283, 352])
        for (const angle of [11, 44]) near(intensityTowards(table, towards(plane, angle)), candela(plane, angle), 0.02)
      expect(intensityTowards(table, towards(30, 120))).toBe(0)
    },
  )
})

test.each([
  ['feet', { units: 1, size: '2 1 0' }, { shape: 'rectangle', widthM: 0.6096, lengthM: 0.3048 }],
  ['metres', { units: 2, size: '0.6 0.3 0' }, { shape: 'rectangle', widthM: 0.6, lengthM: 0.3 }],
  ['round', { units: 2, size: '-0.2 -0.2 0' }, { shape: 'disc', widthM: 0.2, lengthM: 0.2 }],
] as const)('unit and opening: %s', (_, change, opening) => {
  const lamp = readIes(iesText({ planes: [0], angles: range(0, 90, 5), candela: panel, ...change }))
  expect(lamp.opening.shape).toBe(opening.shape)
  expect(lamp.opening.widthM).toBeCloseTo(opening.widthM, 6)
  expect(lamp.opening.lengthM).toBeCloseTo(opening.lengthM, 6)
})

test.each([
  ['NONE', 'TILT=NONE', 1],
  ['INCLUDE', 'TILT=INCLUDE\n1\n3\n0 45 90\n0.9 0.8 0.7', 0.9],
  ['a file', 'TILT=lamp.tlt', 1],
])('TILT %s', (name, tilt, factor) => {
  const lamp = readIes(iesText({ planes: [0], angles: range(0, 90, 5), candela: panel, tilt }))
  near(fluxOfTable(lamp.table), factor * 1000 * Math.PI, 0.005)
  expect(lamp.notes.length > 0).toBe(name === 'a file')
})

test('multiplier, ballast, lamp lumens, line ends and commas', () => {
  const order = { planes: [0], angles: range(0, 90, 5), candela: panel, multiplier: 2.5, ballast: 0.8, lumens: 4000 }
  const lamp = readIes(iesText({ ...order, newline: '\r\n' }).replace(/(\d) (\d)/g, '$1, $2'))
  near(fluxOfTable(lamp.table), 1000 * Math.PI, 0.005)
  expect(lamp.lampFluxLm).toBe(4000)
})

/** A beam of cos¹⁶ about the axis has 2π/17 lm a candela, however its angles are counted; the half measured stands for both. */
test.each([2, 3] as const)('photometric type %i', (type) => {
  const beam = (across: number, up: number) => 1000 * (Math.cos(across * DEG) * Math.cos(up * DEG)) ** 16
  for (const planes of [range(-90, 90, 2.5), range(0, 90, 2.5)]) {
    const { table } = readIes(iesText({ planes, angles: range(-90, 90, 2.5), candela: beam, type }))
    near(fluxOfTable(table), (2 * Math.PI * 1000) / 17, 0.005)
  }
})

test('cd per 1000 lm: EULUMDAT’s Lambertian of 318.31 and 3000 lm is 954.93 cd (LDT-UNITS)', () => {
  const lamp = readEulumdat(ldtText({ symmetry: 1, candela: (p, a) => 0.95493 * panel(p, a), flux: 3000 }))
  expect(intensityTowards(lamp.table, [0, 0, 1])).toBeCloseTo(954.93, 2)
  expect(lamp.lampFluxLm).toBe(3000)
})

test('near field: an even opening of a Lambertian table has one luminance from everywhere', () => {
  const { table } = readIes(iesText({ planes: [0], angles: range(0, 90, 1), candela: panel }))
  for (const angle of [0, 30, 60, 80]) near(openingLuminance(table, 0.36, towards(0, angle)), 1000 / 0.36, 0.002)
})

test.each([
  [readIes, 'nothing', /the head: expected a line TILT=, got none/],
  [readIes, 'TILT=NONE\n1 -1 1', /number of vertical angles: .*got the end of the file/],
  [
    readIes,
    iesText({ planes: [0], angles: [0, 45, 30], candela: panel }),
    /vertical angles: expected angles that ascend, got 45° and then 30°/,
  ],
  [
    readIes,
    iesText({ planes: [0, 70], angles: [0, 90], candela: panel }),
    /horizontal angles: expected 0°, 0° to 90°.*got 0° to 70°/,
  ],
  [
    readIes,
    iesText({ planes: [0], angles: [0, 90], candela: () => 0 }),
    /the table: expected some intensity above 0 cd/,
  ],
  [
    readIes,
    iesText({ planes: [0], angles: [0, 90], candela: () => -5 }),
    /intensity in plane 0°, 1 of 2: expected a number from 0/,
  ],
  [readEulumdat, 'a\nb\nc', /line 3, symmetry: expected a whole number from 0 to 4, got "c"/],
  [readEulumdat, ldtText({ symmetry: 1, candela: panel }).slice(0, 400), /line \d+, .*got/],
])('%o says what is wrong', (read, text, message) => {
  expect(() => read(text)).toThrow(PhotometricFileError)
  expect(() => read(text)).toThrow(message)
})

/** 10,000 files with words and characters changed, moved, doubled or cut: a clear error or a lamp with finite light. */
test('mutated files never crash', () => {
  let draw = 0
  const random = (below: number) => hash32(draw++, 63) % below
  const small = { planes: [0, 90], angles: [0, 30, 60, 90], candela: panel }
  type Seed = readonly [(text: string) => PhotometricLamp, string]
  const all: readonly Seed[] = [
    [readIes, iesText(small)],
    [readEulumdat, ldtText({ symmetry: 4, candela: panel, angles: [0, 30, 60, 90] })],
    [readIes, iesText({ ...small, tilt: 'TILT=INCLUDE\n1\n2\n0 90\n1 0.9' })],
    [readEulumdat, ldtText({ symmetry: 0, candela: panel, angles: [0, 45, 90] })],
    [readIes, iesText({ ...small, type: 3, planes: [0, 45, 90] })],
  ]
  const seeds = all.map(([read, text]) => ({ read, words: text.split(/(?<=\s)/) }))
  const STRANGE = ['-1', '0', '1e308', 'NaN', '', '99999999', 'Infinity', '0x10', '½', '\n', '1e-320', '360', '\u0000']
  const counts = { lamps: 0, errors: 0 }
  for (let i = 0; i < 10_000; i++) {
    // The last, whose intensities are asked anew all round, is dear: one in sixteen.
    const { read, words: before } = seeds[i % 16 === 15 ? 4 : i % 4]!
    const words = [...before]
    for (let change = 0; change <= random(3); change++) {
      const at = random(words.length)
      const kind = random(5)
      if (kind === 0) words[at] = `${STRANGE[random(STRANGE.length)]!} `
      else if (kind === 1) words.splice(at, 1)
      else if (kind === 2) words.splice(at, 0, words[random(words.length)]!)
      else if (kind === 3) words.length = Math.max(1, at)
      else words[at] = words[at]!.replace(/./, String.fromCharCode(32 + random(95)))
    }
    try {
      const { table, opening } = read(words.join(''))
      const flux = fluxOfTable(table)
      const aside = intensityTowards(table, normalize([0.3, 0.2, 0.7]))
      if (!(Number.isFinite(flux) && flux >= 0 && Number.isFinite(aside) && aside >= 0 && opening.widthM >= 0))
        throw new Error(`no valid lamp: ${flux} lm, ${aside} cd, from ${JSON.stringify(words.join(''))}`)
      counts.lamps++
    } catch (error) {
      if (!(error instanceof PhotometricFileError)) throw error
      expect(error.message.length).toBeLessThan(400)
      counts.errors++
    }
  }
  expect(counts.lamps, 'both answers must occur').toBeGreaterThan(500)
  expect(counts.errors).toBeGreaterThan(500)
})
