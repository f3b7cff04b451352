import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { meetLens, outlineLevel } from '../../src/figure'
import { lensReflectance } from '../../src/photometry'
import { faceOf, isMirroredAt } from '../../src/readings/lens-glare'
import type { Rig } from '../../src/rig'
import { addScaled, directionToLocal, dot, normalize, pointToLocal, scale, subtract, type Vec3 } from '../../src/space'
import { glassesRig, PICTURE } from '../render/glasses-rig'
import { type OpenPage, openPage } from './harness'

/**
 * The picture against the readings' own geometry, which shares nothing with the shader: each pixel's line of sight is met
 * with the lenses and mirrored here. Plain lenses against coated ones: where a source is mirrored plain ones are the
 * brighter by its luminance times the difference of reflectances, elsewhere the darker.
 */
let open: OpenPage
beforeAll(async () => {
  open = await openPage('glasses.page.ts')
})
afterAll(() => open?.close())

const light = async (az: number, el: number, coated: boolean) =>
  (await open.page.evaluate(`tested.light(${az}, ${el}, ${coated})`)) as number[]

interface Pixel {
  readonly index: number
  readonly mirrored: boolean
  readonly incidence: number
  readonly luminance: number
}

/** Pixels well within a lens and well off the border of what it mirrors. */
function pixelsOf(rig: Rig): readonly Pixel[] {
  const { frame, sensorWidthMm, focalLengthMm } = rig.view
  const { left, right } = rig.figures[0].posed.lenses!
  const [source] = rig.sources
  const face = faceOf(source)
  const { width, height } = PICTURE
  const tangent = sensorWidthMm / 2 / focalLengthMm
  return Array.from({ length: width * height }, (_, index): readonly Pixel[] => {
    const across = (2 * ((index % width) + 0.5)) / width - 1
    const up = 1 - (2 * (Math.floor(index / width) + 0.5)) / height
    const way = addScaled(addScaled(frame.z, frame.x, -across * tangent), frame.y, (up * tangent * height) / width)
    for (const lens of [left, right]) {
      const far = addScaled(frame.origin, way, 1.3)
      const met = meetLens(lens, frame.origin, far)
      if (!met) continue
      const at = addScaled(frame.origin, way, 1.3 * met.share)
      const [x, y] = pointToLocal(lens.frame, at)
      if (outlineLevel(lens, x, y) > 0.6) return []
      const steps = [
        [0, 0],
        [0.002, 0],
        [-0.002, 0],
        [0, 0.002],
        [0, -0.002],
      ] as const
      const answers = steps.map(([dx, dy]) => isMirroredAt(lens, frame.origin, face, x + dx, y + dy))
      if (answers.some((answer) => answer !== answers[0])) return []
      const sight = normalize(scale(way, -1))
      const cosine = dot(sight, met.normal)
      const out = subtract(scale(met.normal, 2 * cosine), sight)
      return [
        { index, mirrored: answers[0], incidence: Math.acos(cosine), luminance: answers[0] ? seen(rig, at, out) : 0 },
      ]
    }
    return []
  }).flat()
}

/** Luminance of the key's front where a look from a place meets its plane, per 1 cd·s, 1/m². */
function seen({ sources: [source] }: Rig, from: Vec3, way: Vec3): number {
  const { frame, emission } = source.emitters.find(({ part }) => part === 'front')!
  const [p, d] = [pointToLocal(frame, from), directionToLocal(frame, way)]
  const point = addScaled(p, d, -p[2] / d[2])
  return emission.luminance({ ...emission.at(0.5, 0.5), point }, scale(d, -1))
}

const rigOf = (az: number, el: number, coated: boolean) =>
  glassesRig(new Uint8Array(readFileSync('assets/sitter.glb')), az, el, coated)

test('a low key glares where the mirror’s law has it, and nowhere else', async () => {
  const pixels = pixelsOf(rigOf(0, 15, false))
  const [plain, coated] = [await light(0, 15, false), await light(0, 15, true)]
  const glaring = pixels.filter(({ mirrored }) => mirrored)
  expect(glaring.length).toBeGreaterThan(50)
  expect(pixels.length - glaring.length).toBeGreaterThan(50)
  const wrong = pixels.filter(({ index, mirrored }) => plain[index] > coated[index] !== mirrored)
  expect(wrong.map(({ index }) => index)).toEqual([])
  // As bright as the cloth is times what a plain lens mirrors more; the face behind is lit and seen through a lens dimmed more.
  const ratios = glaring.map(({ index, incidence, luminance }) => {
    const [r, c] = [lensReflectance(incidence, false), lensReflectance(incidence, true)]
    const behind = (coated[index] - c * luminance) * (((1 - r) / (1 - c)) ** 2 - 1)
    return (plain[index] - coated[index] - behind) / ((r - c) * luminance)
  })
  const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length
  expect(Math.abs(mean - 1)).toBeLessThan(0.05)
})

test('a key at 45/40 shows in neither lens, and a plain lens takes 8 % of what is behind it at least', async () => {
  const pixels = pixelsOf(rigOf(45, 40, false))
  expect(pixels.length).toBeGreaterThan(200)
  expect(pixels.some(({ mirrored }) => mirrored)).toBe(false)
  const [plain, coated] = [await light(45, 40, false), await light(45, 40, true)]
  const shares = pixels.filter(({ index }) => coated[index] > 0).map(({ index }) => plain[index] / coated[index])
  expect(shares.length).toBeGreaterThan(100)
  // Once through a lens, or twice where the light came through it too: 0.923/0.990 or its square, oblique ones a little less.
  for (const share of shares) {
    expect(share).toBeLessThan(0.935)
    expect(share).toBeGreaterThan(0.75)
  }
})
