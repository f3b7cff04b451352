import { describe, expect, test } from 'vitest'
import { buildModifier, defaultModifier, MODIFIER_KINDS, modifierKind, validateModifier } from '../../src/gear'

const PATH = 'sources[1].modifier'

describe.each(MODIFIER_KINDS.map((kind) => [kind.id, kind] as const))('%s', (id, kind) => {
  test('its defaults are valid and build', () => {
    expect(validateModifier(defaultModifier(id), PATH)).toEqual([])
    expect(buildModifier(defaultModifier(id)).name.length).toBeGreaterThan(3)
  })

  test.each(kind.fields.map((field) => [field.id, field] as const))(
    '%s out of its range is named with its unit',
    (_, field) => {
      const wrong = field.type === 'number' ? field.range[1] + 1 : field.type === 'text' ? 7 : 'sideways'
      const problems = validateModifier({ ...defaultModifier(id), [field.id]: wrong }, PATH)
      expect(problems).toHaveLength(1)
      expect(problems[0].path).toBe(`${PATH}.${field.id}`)
      if (field.type === 'number' && field.unit) expect(problems[0].expected).toContain(field.unit)
      expect(problems[0].got).toContain(String(wrong))
      expect(problems[0].advice).not.toBe('')
    },
  )

  test('defaults and usual values lie in range, lengths end in M', () => {
    for (const field of kind.fields) {
      if (field.type === 'choice') expect(field.choices).toContain(field.default)
      else if (field.type === 'text') expect(field.default.length).toBeLessThanOrEqual(field.longest)
      else {
        for (const value of [...field.usual, field.default]) {
          expect(value).toBeGreaterThanOrEqual(field.range[0])
          expect(value).toBeLessThanOrEqual(field.range[1])
        }
        expect(field.id.endsWith('M')).toBe(field.unit === 'm')
      }
    }
  })
})

test('an unknown kind names the known ones', () => {
  expect(() => modifierKind('lantern')).toThrow(/"lantern"; there are softbox, .*on-camera-flash/)
  expect(validateModifier({ kind: 'lantern' }, PATH)[0].expected).toContain('softbox')
})

test('unknown fields are let through', () => {
  expect(validateModifier({ ...defaultModifier('dish'), colourOfRim: 'red' }, PATH)).toEqual([])
})

test.each([
  ['white-umbrella', { shaftM: 0.21 }, 'shaftM', 'at least 0.23 m'],
  ['silver-umbrella', { diameterM: 0.8, depthM: 0.4 }, 'depthM', 'at most 45 %'],
  ['deep-umbrella', { diameterM: 0.8, depthM: 0.4 }, 'depthM', 'at most 45 %'],
  ['white-umbrella', { backing: 'translucent', front: 'cloth' }, 'front', 'none'],
  ['beauty-dish', { diameterM: 0.4, depthM: 0.25 }, 'depthM', 'at most half of the opening, 0.20 m'],
  ['beauty-dish', { deflectorM: 0.3, diameterM: 0.4 }, 'deflectorM', 'at most 60 %'],
  ['octa', { diameterM: 0.6 }, 'depthM', 'at most half of the width, 0.30 m'],
  ['ring-flash', { holeM: 0.2, diameterM: 0.2 }, 'holeM', 'at most 0.18 m'],
  ['measured-lamp', { planesDeg: '0 90' }, 'planesDeg', 'from 0 to 360°'],
  ['measured-lamp', { anglesDeg: '0 30 20' }, 'anglesDeg', 'that ascend within 0 to 180°'],
  ['measured-lamp', { anglesDeg: '0 200' }, 'anglesDeg', 'that ascend within 0 to 180°'],
  ['measured-lamp', { anglesDeg: '0 90' }, 'candela', '2 intensities in plane 0°'],
  ['measured-lamp', { anglesDeg: '0 90', candela: '5 0' }, 'candela', '2 planes'],
  ['measured-lamp', { anglesDeg: '0 90', candela: '5 x; 5 0' }, 'candela', 'numbers from 0'],
  ['measured-lamp', { anglesDeg: '0 90', candela: '5 -1; 5 -1' }, 'candela', 'numbers from 0'],
  ['measured-lamp', { anglesDeg: '0 90', candela: '0 0; 0 0' }, 'candela', 'above 0 cd'],
  [
    'measured-lamp',
    { anglesDeg: '0 90', candela: '5 0; 4 0' },
    'candela',
    'the same intensities in the planes of 0° and 360°',
  ],
])('%s: fields that do not go together', (id, change, field, expected) => {
  const problems = validateModifier({ ...defaultModifier(id), ...change }, PATH)
  expect(problems[0].path).toBe(`${PATH}.${field}`)
  expect(problems[0].expected).toContain(expected)
})

test('a row that a file may leave out means its default; a file from before it was there builds what it built', () => {
  const before = { kind: 'softbox', widthM: 0.6, heightM: 0.9, depthM: 0.4, forwardShare: 0, bodyM: 0.3 }
  expect(validateModifier(before, PATH)).toEqual([])
  const [old, now] = [before, defaultModifier('softbox')].map(buildModifier)
  expect(old.name).toBe(now.name)
  expect(old.emitters[0].emission.flux).toBe(now.emitters[0].emission.flux)
  expect(validateModifier({ ...before, inner: 'thick' }, PATH)[0]).toMatchObject({
    path: `${PATH}.inner`,
    expected: 'one of none, 60 %, full',
  })
})
