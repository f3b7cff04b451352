import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dialFraction } from '../../src/readings'
import {
  formatFNumber,
  formatLength,
  parseAngle,
  parseFNumber,
  parseFraction,
  parseLength,
  parseShutter,
  parseStops,
  parseWithin,
  quantities,
} from '../../src/ui/values'

const value = (parsed: ReturnType<typeof parseLength>): number => {
  if (!parsed.ok) throw new Error(parsed.message)
  return parsed.value
}

// The international foot and inch are exact by definition: 0.3048 m and 0.0254 m (agreement of 1959).
test.each([
  ['1.2m', 1.2],
  ['1,2 m', 1.2],
  ['120 cm', 1.2],
  ['95mm', 0.095],
  ['4ft', 1.2192],
  ['4\' 6"', 1.3716],
  ['4′ 6″', 1.3716],
  ['4 ft 6 in', 1.3716],
  ['54 in', 1.3716],
  ['−0.6 m', -0.6],
  ['1', 1],
])('length %s is %d m', (text, metres) => {
  expect(value(parseLength(text, 'metres'))).toBeCloseTo(metres, 12)
})

test('a bare number counts in the units on the page', () => {
  expect(value(parseLength('3', 'feet'))).toBeCloseTo(0.9144, 12)
})

test.each(['', 'wide', '1.2 kg', 'm', '1.2.3', '4 ft 6 ft'])('length refuses “%s” and gives an example', (text) => {
  const parsed = parseLength(text, 'metres')
  expect(parsed.ok).toBe(false)
  expect(!parsed.ok && parsed.message).toMatch(/^expected a length such as .*, got /)
})

test.each([
  ['35', 35],
  ['35°', 35],
  ['35deg', 35],
  ['20 left', -20],
  ['20° right', 20],
  ['-5', -5],
])('angle %s', (text, degrees) => {
  expect(value(parseAngle(text, ['right', 'left']))).toBe(degrees)
})

test('a size without a side stays on the side where the value is; a word or a sign says another', () => {
  const round = quantities.angleTowards('right', 'left')
  const across = quantities.lengthTowards('right', 'left')
  const typed = (quantity: typeof round, text: string, now?: number) =>
    value(parseWithin(quantity, text, [-180, 180], 'metres', now))
  expect([typed(round, '32', -43), typed(round, '32°', -43), typed(round, '32', 43), typed(round, '32', 0)]).toEqual([
    -32, -32, 32, 32,
  ])
  expect(typed(round, '32')).toBe(32)
  for (const other of ['32 right', '32° RIGHT', '+32']) expect(typed(round, other, -43), other).toBe(32)
  for (const same of ['32 left', '-32', '−32']) expect(typed(round, same, -43), same).toBe(-32)
  expect([typed(across, '0.6 m', -1), typed(across, '0.6 m right', -1), typed(across, '0', -1)]).toEqual([-0.6, 0.6, 0])
  // What has no sides keeps none.
  expect(value(parseWithin(quantities.length, '0.6', [-3, 3], 'metres', -1))).toBe(0.6)
})

test('a length with a word for its way: the second way is negative, and what is shown can be typed back', () => {
  const across = quantities.lengthTowards('right', 'left')
  expect(value(across.parse('0.6 m left', 'metres'))).toBeCloseTo(-0.6, 12)
  expect(value(across.parse('2ft right', 'metres'))).toBeCloseTo(0.6096, 12)
  expect(value(across.parse('-0.6', 'metres'))).toBeCloseTo(-0.6, 12)
  expect(across.parse('left', 'metres').ok).toBe(false)
  expect(across.format(-0.62, 'metres')).toBe('0.62 m left')
  expect(across.format(-0.001, 'metres')).toBe('0.00 m')
  expect(value(across.parse(across.format(-0.62, 'metres'), 'metres'))).toBeCloseTo(-0.62, 12)
})

test('words for the ways are refused where an angle has none', () => {
  expect(parseAngle('20 left').ok).toBe(false)
})

// One stop is a factor √2 in f-number and 2 in power and time, by definition.
test('f-numbers, dial steps and times', () => {
  expect(value(parseFNumber('f/8'))).toBe(8)
  expect(value(parseFNumber('f8 + 1'))).toBeCloseTo(8 * Math.SQRT2, 12)
  expect(value(parseStops('1/8', true))).toBe(-3)
  expect(value(parseStops('1/8 − 0.1', true))).toBeCloseTo(-3.1, 12)
  expect(value(parseStops('full', true))).toBe(0)
  expect(value(parseStops('-1 stop', true))).toBe(-1)
  expect(parseStops('1/8').ok).toBe(false)
  expect(value(parseShutter('1/160'))).toBe(1 / 160)
  expect(value(parseShutter('0.5 s'))).toBe(0.5)
  expect(parseShutter('1/0').ok).toBe(false)
  expect(parseFNumber('f/0').ok).toBe(false)
  expect(value(parseFraction('60 %'))).toBeCloseTo(0.6, 12)
  expect(value(parseFraction('60'))).toBeCloseTo(0.6, 12)
  expect(value(parseFraction('0.6'))).toBeCloseTo(0.006, 12)
})

// A number a stop, the top one full (the dial's own definition); 1/4 is two stops down everywhere.
test('on a dial in numbers every plain number is the dial’s, 0 and less as well; joules begin over 0', () => {
  const numbers = quantities.powerOf({ dialStyle: 'numbers', dialTop: 6, energyJ: 200 })
  expect(numbers.format(-6, 'metres')).toBe('0.0')
  expect(value(numbers.parse('0.0', 'metres'))).toBe(-6)
  expect(value(numbers.parse(numbers.format(-7, 'metres'), 'metres'))).toBe(-7)
  expect(value(numbers.parse('6', 'metres'))).toBe(0)
  expect(value(numbers.parse('1/4', 'metres'))).toBe(-2)
  expect(value(numbers.parse('−1 stop', 'metres'))).toBe(-1)
  const joules = quantities.powerOf({ dialStyle: 'joules', energyJ: 200 })
  expect(value(joules.parse('50 J', 'metres'))).toBe(-2)
  expect(joules.parse('0', 'metres')).toMatchObject({ ok: false, message: expect.stringMatching(/over 0 J.*got “0”/) })
})

test('out of range is said with the range and what was typed, never clamped', () => {
  const parsed = parseWithin(quantities.length, '-0.6 m', [0.2, 3], 'metres')
  expect(parsed).toEqual({ ok: false, message: 'expected 0.20 m to 3.00 m, got −0.60 m' })
})

test('what is shown can be typed back', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.01, max: 30, noNaN: true }), fc.constantFrom('metres', 'feet'), (metres, units) => {
      const back = value(parseLength(formatLength(metres, units as 'metres'), units as 'metres'))
      expect(Math.abs(back - metres)).toBeLessThanOrEqual(units === 'metres' ? 0.00501 : 0.0128)
    }),
  )
  fc.assert(
    fc.property(fc.double({ min: -6, max: 0, noNaN: true }), (stops) => {
      expect(Math.abs(value(parseStops(dialFraction(stops), true)) - stops)).toBeLessThanOrEqual(0.0501)
    }),
  )
  fc.assert(
    fc.property(fc.double({ min: 1, max: 45, noNaN: true }), (n) => {
      expect(Math.abs(Math.log2(value(parseFNumber(formatFNumber(n))) / n))).toBeLessThan(0.08)
    }),
  )
})
