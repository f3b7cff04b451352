import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { lamp, setOf, take } from './set'

const dish = defaultModifier('dish')
const blackRoom = { wallReflectance: 0.02, ceilingReflectance: 0.02, floorReflectance: 0.02 }

test.each([30, 45, 60])(
  'a hard key %i° round and a backdrop close behind: where no light falls the reading says so',
  (az) => {
    const backdrop = { widthM: 2.72, heightM: 2.4, distanceM: 0.5, reflectance: [0.2, 0.2, 0.2] as const }
    const sitting = setOf([lamp('A', { az, el: 35, d: 1.5, modifier: dish })], {})
    const dark = { ...sitting, backdrop, room: { ...sitting.room, ...blackRoom }, panels: [] }
    const { readings, of } = take(dark, 0)
    // One lamp in a room of 2 %: nothing but bounce is in its shadows, and none is traced.
    expect(of('edge.A.nose.depth').value).toBeNull()
    expect(of('edge.A.nose.depth').sentence).toMatch(/only bounced light fills the nose shadow on the cheek/)
    expect(readings.length).toBeGreaterThan(20)
    for (const { id, value, sentence } of readings) {
      if (typeof value === 'number') expect(Number.isFinite(value), id).toBe(true)
      expect(sentence, id).not.toMatch(/Infinity|NaN/)
    }
  },
)

test('a narrow grid from the side that leaves the backdrop dark: no stops, and why', () => {
  const gridded = lamp('A', { az: 90, el: 0, d: 1.5, modifier: { ...dish, grid: '10°' } })
  const backdrop = { widthM: 2.72, heightM: 2.4, distanceM: 1.5, reflectance: [0.2, 0.2, 0.2] as const }
  const { of } = take(setOf([gridded], { backdrop }))
  expect(of('exposure.nearCheek.disc.light').value).not.toBeNull()
  expect(of('backdrop.stops').value).toBeNull()
  expect(of('backdrop.stops').sentence).toMatch(/no light reaches the backdrop/)
})

test('every source off: no reading breaks', () => {
  const sitting = setOf([{ ...lamp('A', { az: 45, el: 35, d: 1.5, modifier: dish }), on: false }], {})
  expect(() => take(sitting, 0)).not.toThrow()
})
