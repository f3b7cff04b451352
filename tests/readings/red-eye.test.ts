import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { setSitter } from '../../src/sitting'
import type { Vec3 } from '../../src/space'
import { EYE_M, lamp, setOf, take } from './set'

const LENS: Vec3 = [0, EYE_M, 2]
/** A flash of a centimetre, so many metres over the lens. */
const flash = (overM: number, change = {}) => {
  const modifier = { ...defaultModifier('on-camera-flash'), diameterM: 0.01 }
  const source = lamp('A', { modifier, centreM: [0, EYE_M + overM, 2], aimM: [0, EYE_M, 0], ...change })
  const base = setOf([source])
  return { ...base, camera: { ...base.camera, positionM: LENS, aimM: [0, EYE_M, 0] as const } }
}

test.each([
  // EYE-REDEYE in shared/check-values.json: atan(s/d), s in metres at 2 m.
  [0.03, 0.859372243644681],
  [0.05, 1.43209618416465],
  [0.1, 2.86240522611175],
  [0.3, 8.53076560994813],
])('%s m over a lens 2 m away', (over, degrees) => {
  const margin = take(flash(over)).value('source.A.redEye')
  // The flash's own half breadth takes 0.14° off, the eye 13 mm before the middle of the head 0.7 %.
  expect(margin + 2.5).toBeGreaterThan(degrees - 0.15)
  expect(margin + 2.5).toBeLessThan(1.01 * degrees)
})

// The trade's rule: under 2 to 2.5° risky, over 5° (17 cm at 2 m) safe. Common practice, no source.
test('what it says: red, perhaps, clear; and a caution only where pupils turn red', () => {
  const [near, between, clear] = [0.05, 0.12, 0.19].map((over) => take(flash(over)))
  const cautionOf = ({ cautions }: typeof near) => cautions.find(({ id }) => id === 'caution.A.redEye')?.sentence
  expect(near.of('source.A.redEye').sentence).toMatch(
    /^too near the lens, pupils turn red: A stands 1\.\d° beside the lens/,
  )
  expect(cautionOf(near)).toMatch(/hold it 17 cm from the lens/)
  expect(between.of('source.A.redEye').sentence).toMatch(/^from red eye, which wide pupils may still show/)
  expect(clear.of('source.A.redEye').sentence).toMatch(/^clear of red eye/)
  expect([between, clear].map(cautionOf)).toEqual([undefined, undefined])
})

test('every source that is on has its margin; a large face of which little is near the lens is no danger', () => {
  const octa = { ...defaultModifier('softbox'), widthM: 1.2, heightM: 1.2 }
  const big = lamp('B', { modifier: octa, centreM: [0, EYE_M + 0.65, 2], aimM: [0, EYE_M, 0] })
  const { sources, ...rest } = flash(0.3)
  const taken = take({ ...rest, sources: [...sources, big, { ...lamp('C', { az: 45 }), on: false }] })
  const ids = taken.readings.map(({ id }) => id).filter((id) => id.endsWith('redEye'))
  expect(ids).toEqual(['source.A.redEye', 'source.B.redEye'])
  expect(taken.of('source.B.redEye').sentence).toMatch(/^near the lens with little of its face, no danger/)
  expect(taken.cautions.some(({ id }) => id.endsWith('redEye'))).toBe(false)
})

test('the angle at the eye counts: the same flash is nearer to the lens from farther away', () => {
  const margin = (d: number) => {
    const set = flash(0.12)
    const [source] = set.sources
    return take({
      ...set,
      camera: { ...set.camera, positionM: [0, EYE_M, d] },
      sources: [{ ...source, centreM: [0, EYE_M + 0.12, d] }],
    }).value('source.A.redEye')
  }
  // Small angles: halved by twice the distance.
  expect((margin(4) + 2.5) / (margin(2) + 2.5)).toBeCloseTo(Math.atan(0.12 / 4) / Math.atan(0.12 / 2), 1)
})

test('none behind the sitter, from one that is turned away, or where the eyes are turned from the lens', () => {
  const behind = flash(0.1, { centreM: [0, EYE_M, -2], aimM: [0, EYE_M, 0] })
  const away = flash(0.1, { aimM: [0, EYE_M, 9] })
  for (const set of [behind, away, setSitter(flash(0.1), 'sitter', { headTurnDeg: 90, bodyTurnDeg: 90 })]) {
    const { value, sentence } = take(set).of('source.A.redEye')
    expect(value).toBeNull()
    expect(sentence).toBe('A does not shine into the eyes: no red eye from it.')
  }
})
