import { describe, expect, test } from 'vitest'
import { foldShare, lidShade as lidShadeOf, lidTone, whiteTint } from '../../src/figure/eye-white'
import { lidMargins } from '../../src/figure/sculpt/eye'
import type { Vec3 } from '../../src/space'

/** On a ball of 12 mm, from its middle. */
const onBall = (x: number, y: number): Vec3 => [x, y, Math.sqrt(144 - x * x - y * y)]
const luminance = ([r, g, b]: readonly number[]) => 0.2126 * r + 0.7152 * g + 0.0722 * b

describe('the white of an eye', () => {
  /** Portraits show it so: common practice, no source. */
  test('reddens towards the corners, and is of its own hue beside the iris', () => {
    const [near, far] = [whiteTint(onBall(6.2, 0), 0.3), whiteTint(onBall(10.5, 0), 0.3)]
    expect(near[0] / near[2]).toBeLessThan(1.05)
    expect(luminance(far)).toBeLessThan(0.9)
    expect(far[0] / far[2]).toBeGreaterThan(1.15)
  })

  /** Anatomy texts, the limbus, from memory: where cornea goes over into white, a grey ring a millimetre or two wide. */
  test('is grey beside the cornea', () => {
    const at = (r: number) => luminance(whiteTint(onBall(0, r), 0.3))
    expect(at(5.8)).toBeLessThan(0.75)
    expect(at(7.5)).toBeGreaterThan(1.3 * at(5.8))
  })

  /** Anatomy texts, from memory: the third lid's fold, some millimetres of pink, lies in the corner by the nose; in the outer one there is hardly any. */
  test('lies in the fold of the corners within their last 6 mm, less away from the nose', () => {
    const at = (x: number) => foldShare(onBall(x, 0))
    expect([at(-6), at(6), foldShare(onBall(0, 11.5))]).toEqual([0, 0, 0])
    expect(at(-10.5)).toBeGreaterThan(0.4)
    expect(at(-11.5)).toBeGreaterThan(0.95)
    expect(at(11.5)).toBeLessThan(0.4)
  })

  test('has vessels in a close picture, and in a far one their mean, to 5 %', () => {
    const ring = Array.from({ length: 1200 }, (_, i) => {
      const [turn, r] = [(i * 2.399963) % (2 * Math.PI), 8 + (2.5 * i) / 1200]
      return onBall(r * Math.cos(turn), r * Math.sin(turn))
    })
    const greens = (footprintMm: number) => ring.map((p) => whiteTint(p, footprintMm)[1])
    const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length
    const [close, far] = [greens(0.03), greens(0.3)]
    expect(Math.min(...close)).toBeLessThan(Math.min(...far) - 0.1)
    expect(mean(close) / mean(far)).toBeCloseTo(1, 1)
    expect(Math.abs(mean(close) / mean(far) - 1)).toBeLessThan(0.05)
  })
})

describe('lids shade the ball', () => {
  const lid = lidTone([0.39, 0.27, 0.19])
  const lidShade = (p: Vec3, upper: number, lower: number) => lidShadeOf(p, upper, lower, lid)

  /** Radiant heat's handbooks: two plates at right angles, the view of an endless strip: (1 − d/√(d² + h²))/2. */
  test('at the margin a lid hides half of the light, and next to none a lid-breadth off', () => {
    const { upper } = lidMargins(0)
    expect(luminance(lidShade(onBall(0, upper), 0, 0))).toBeLessThan(0.62)
    expect(luminance(lidShade(onBall(0, upper - 1), 0, 0))).toBeGreaterThan(0.65)
    expect(luminance(lidShade(onBall(0, 0), 0, 0))).toBeGreaterThan(0.9)
  })

  test('less at the lower lid, most in the corners', () => {
    const { upper, lower } = lidMargins(0)
    const at = (x: number, y: number) => luminance(lidShade(onBall(x, y), 0, 0))
    expect(at(0, lower + 1)).toBeGreaterThan(at(0, upper - 1) + 0.05)
    const corner = lidMargins(-11)
    expect(at(-11, (corner.upper + corner.lower) / 2)).toBeLessThan(at(0, 0) - 0.08)
  })

  test('goes with the lids', () => {
    const p = onBall(0, 3)
    expect(luminance(lidShade(p, -0.1, 0))).toBeLessThan(luminance(lidShade(p, 0, 0)) - 0.02)
  })
})
