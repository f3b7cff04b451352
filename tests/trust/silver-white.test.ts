import { expect, test } from 'vitest'
import { take } from '../readings/set'
import { underUmbrella } from '../readings/silver-white'

/**
 * Path-traced (shared/emission-values.json): the edge is 4 to 13 % narrower, X some third, 1.07 against 3.5 sr at 1.5 m without the
 * spill past the canopy; so at equal exposure the shadow lies deeper, by 1.7 stops if all of the room's light came back evenly.
 */
test('silver and white at equal lit size in a pale room: same full edge, narrower in the middle, X a third, shadow 1 to 2 stops deeper', () => {
  const [silver, white] = (['silver-umbrella', 'white-umbrella'] as const).map((kind) =>
    take(underUmbrella(kind), 4096),
  )
  const share = (id: string) => silver.value(id) / white.value(id)
  expect(share('edge.A.nose.full')).toBeCloseTo(1, 6)
  const narrower = 1 - share('edge.A.nose.tenToNinety')
  expect(narrower).toBeGreaterThan(0.04)
  expect(narrower).toBeLessThan(0.13)
  expect(share('source.A.roomFlux')).toBeGreaterThan(0.28)
  expect(share('source.A.roomFlux')).toBeLessThan(0.42)
  const deeper = white.value('edge.A.nose.depth') - silver.value('edge.A.nose.depth')
  expect(deeper).toBeGreaterThan(1)
  expect(deeper).toBeLessThan(2)
})
