import { afterAll, beforeAll, expect, test } from 'vitest'
import { floatsFromBase64, type OpenPage, openPage } from './harness'
import type { Tested } from './together.page'

/**
 * Light adds up (superposition), so three coloured sources drawn as one must give what their own layers sum to, with eyes,
 * hair, bounce and silver: the mean in each band, and each pixel within the noise of so few samples. Shares of the mean.
 */
const REGIONS = { sitter: 1, set: 0 } as const
/** Under a moving hand twelve points light the picture, at rest four batches. */
const MOST = {
  moving: { sitter: { mean: 0.08, rmse: 0.15 }, set: { mean: 0.025, rmse: 0.05 } },
  resting: { sitter: { mean: 0.02, rmse: 0.05 }, set: { mean: 0.02, rmse: 0.035 } },
  movingSummed: { sitter: { mean: 0.08, rmse: 0.15 }, set: { mean: 0.025, rmse: 0.05 } },
  restingSummed: { sitter: { mean: 0.02, rmse: 0.05 }, set: { mean: 0.02, rmse: 0.035 } },
} as const

let open: OpenPage
beforeAll(async () => {
  open = await openPage('together.page.ts')
})
afterAll(() => open?.close())

/** A minute: AGREEMENT=all. */
test.runIf(process.env.AGREEMENT === 'all')(
  'many sources drawn as one give the sum of their own layers, and start again only when weighed otherwise',
  async () => {
    const told = await open.page.evaluate(() => (window as unknown as { tested: Tested }).tested.pictures())
    const [moving, resting, movingSummed, restingSummed, brighter, apart] = told.pixels.map(
      floatsFromBase64,
    ) as Float32Array[]
    const kinds = Buffer.from(told.sitters, 'base64')
    const missOf = (picture: Float32Array, kind: number) =>
      [0, 1, 2].map((band) => {
        const places = [...kinds.keys()].filter((i) => kinds[i] === kind).map((i) => 4 * i + band)
        const sum = (of: (place: number) => number) => places.reduce((total, place) => total + of(place), 0)
        const mean = sum((place) => apart![place]!) / places.length
        return {
          mean: Math.abs(sum((place) => picture[place]!) / places.length / mean - 1),
          rmse: Math.sqrt(sum((place) => (picture[place]! - apart![place]!) ** 2) / places.length) / mean,
        }
      })
    const pictures = { moving, resting, movingSummed, restingSummed } as Record<keyof typeof MOST, Float32Array>
    for (const [name, picture] of Object.entries(pictures))
      for (const [region, kind] of Object.entries(REGIONS))
        for (const { mean, rmse } of missOf(picture, kind)) {
          const most = MOST[name as keyof typeof MOST][region as keyof typeof REGIONS]
          expect(mean, `${name}, ${region}: mean`).toBeLessThan(most.mean)
          expect(rmse, `${name}, ${region}: RMSE`).toBeLessThan(most.rmse)
        }
    // All twice as bright is the same picture; one of them alone is another.
    expect(told.waits).toEqual([false, true])
    brighter!.forEach((value, i) => {
      if (i % 4 < 3) expect(Math.abs(value - 2 * resting![i]!)).toBeLessThan(1e-4 * (1 + value))
    })
  },
  240_000,
)
