import { expect, test } from 'vitest'
import { SHAPE_PRESET_NAMES } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import { type Sitting, setSitterShape } from '../../src/sitting'
import { inputOf, lamp, PATTERNS, setOf, take } from './set'

const fixed: Partial<Sitting> = { reExpose: 'nothing' }
const BOX_M = 0.4

test("the nose's edge goes by the nose that is there", () => {
  const [az, el, d] = [35, 20, 1.5]
  const modifier = { ...defaultModifier('softbox'), widthM: BOX_M, heightM: BOX_M }
  const set = setOf([lamp('A', { az, el, d, modifier })], fixed)
  const [short, long] = [16, 25].map((noseProtrusionMm) => {
    const shaped = setSitterShape(set, 'sitter', { noseProtrusionMm })
    const { noseTip } = inputOf(shaped).rig.figures[0].posed.landmarks
    return { tipM: noseTip.position[2], fullMm: take(shaped).value('edge.A.nose.full') }
  })
  // Pythagoras: the base of the nose lies 14 mm below the tip, so the tip stands 7.7 and 20.7 mm before it.
  expect(long.tipM - short.tipM).toBeGreaterThan(0.013)
  // w = W·b/a: b grows by the tip's way along the light; W lies between the side of the box and its diagonal.
  const [a, e] = [az, el].map((degrees) => (degrees * Math.PI) / 180)
  const grown = ((long.tipM - short.tipM) * Math.cos(a) * Math.cos(e) * 1000 * BOX_M) / d
  expect(long.fullMm - short.fullMm).toBeGreaterThan(grown)
  expect(long.fullMm - short.fullMm).toBeLessThan(grown * Math.SQRT2)
})

test('the tape ends at the cheek that is there', () => {
  const set = setOf([lamp('A', { az: 80, d: 1.2 })], fixed)
  const tape = (preset: 'narrow' | 'broad' | 'child') =>
    take(setSitterShape(set, 'sitter', preset)).value('source.A.tape')
  // The heads differ by 18 mm in breadth, so each cheek by 9 mm at the most; below the cheekbones it is less.
  const narrower = tape('narrow') - tape('broad')
  expect(narrower).toBeGreaterThan(0.002)
  expect(narrower).toBeLessThan(0.009)
  expect(tape('child')).toBeGreaterThan(tape('broad'))
})

/** Names next to a border go either way within so many degrees round (common practice, no source). */
const BORDER_DEG = 7

test.each(SHAPE_PRESET_NAMES)('patterns have their names on every head: %s', (preset) => {
  const named = (az: number, el: number) => {
    const set = setOf([lamp('A', { az, el, d: 1.5 })], fixed)
    return take(setSitterShape(set, 'sitter', preset)).of('face.pattern').value
  }
  for (const [az, el, name] of PATTERNS) {
    const here = named(az, el)
    if (here !== name && preset !== 'average')
      expect([named(az - BORDER_DEG, el), named(az + BORDER_DEG, el)], `${az}/${el}: ${here}`).toContain(name)
    else expect(here, `${az}/${el}`).toBe(name)
  }
})
