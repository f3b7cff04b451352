import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { AVERAGE_SHAPE, eyeHeightOf, postureOf, SHAPE_PRESETS } from '../../src/figure'

/** How high eyes are, against measured people: ANSUR II 2012 in shared/check-values.json, millimetres. */
interface Spread {
  readonly mean: number
  readonly sd: number
}
const records = JSON.parse(readFileSync('shared/check-values.json', 'utf8')) as {
  readonly id: string
  readonly expected: Readonly<Record<'female' | 'male', Spread>>
}[]
const people = (id: string, sex: 'female' | 'male'): number =>
  records.find((r) => r.id === id)!.expected[sex].mean / 1000
const SEXES = [
  ['feminine', 'female'],
  ['masculine', 'male'],
] as const
const CENTIMETRE = 0.0051

test.each(SEXES)('%s: standing, eyes are as far under the stature as people’s, in shoes of 25 mm', (preset, sex) => {
  const barefoot = people('ANT-A2-stature', sex) - people('ANT-A2-D-sitting-eye', sex)
  expect(Math.abs(eyeHeightOf('standing', SHAPE_PRESETS[preset]) - 0.025 - barefoot)).toBeLessThan(CENTIMETRE)
})

/** Seats: 430 to 485 mm (ADA-ABA, water closets and shower seats), a manual wheelchair's 495 mm with somebody in it (mean, Anthropometry of Wheeled Mobility, 2010). */
test.each(SEXES)(
  '%s: seated, eyes are over a chair’s or a wheelchair’s seat by people’s eye height sitting',
  (preset, sex) => {
    const over = people('ANT-A2-eyeheightsitting', sex)
    const chair = eyeHeightOf('seated', SHAPE_PRESETS[preset]) - over
    expect(chair).toBeGreaterThan(0.43 - CENTIMETRE)
    expect(chair).toBeLessThan(0.485)
    expect(Math.abs(eyeHeightOf('in a wheelchair', SHAPE_PRESETS[preset]) - over - 0.495)).toBeLessThan(CENTIMETRE)
  },
)

/** ADA Standards 1991, A4.2.4 and figure A3: eye level 43 to 51 in; of a large man more. */
test('in a wheelchair the average adult’s eyes are where accessibility standards have them', () => {
  expect(eyeHeightOf('in a wheelchair', AVERAGE_SHAPE)).toBeGreaterThan(1.09)
  expect(eyeHeightOf('in a wheelchair', AVERAGE_SHAPE)).toBeLessThan(1.295)
})

/** Children of seven: stature 1.22 m, eye 0.11 m under it, from memory (growth charts; Snyder 1977). */
test('a child’s eyes are lower, and grow up to an adult’s', () => {
  expect(Math.abs(eyeHeightOf('standing', SHAPE_PRESETS.child) - 0.025 - 1.11)).toBeLessThan(0.03)
  const heights = [7, 10, 14, 18].map((ageYears) => eyeHeightOf('seated', { ...AVERAGE_SHAPE, ageYears }))
  expect(heights).toEqual([...heights].sort((a, b) => a - b))
  expect(heights[3]).toBe(eyeHeightOf('seated', AVERAGE_SHAPE))
})

test('eyes tell the posture within two centimetres, and no other', () => {
  expect(postureOf(1.2, AVERAGE_SHAPE)).toBe('seated')
  expect(postureOf(1.27, AVERAGE_SHAPE)).toBe('in a wheelchair')
  expect(postureOf(1.61, AVERAGE_SHAPE)).toBe('standing')
  expect(postureOf(1.45, AVERAGE_SHAPE)).toBeNull()
})
