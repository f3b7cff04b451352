import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { createRayCaster } from '../../src/rays'
import { GRID_PLACES, gridSteps } from '../../src/readings'
import { firstSitting, type Sitting } from '../../src/sitting'
import { AskDesk } from '../../src/ui/desks/ask-desk'
import { inputOf, lamp, setOf } from './set'

/** A bare bulb to one side of the sitter, before a backdrop: a grid of the paper. */
const bulb = lamp('A', { modifier: defaultModifier('bare-bulb') })
const source = { ...bulb, centreM: [0.9, 1.3, 0.2] as const, aimM: [0.9, 1.3, -2] as const }
const { backdrop } = firstSitting()
const set: Sitting = setOf([source], { reExpose: 'nothing', backdrop: { ...backdrop!, widthM: 2.7 } })
const sceneOf = (sitting: Sitting) => {
  const { rig, bodies } = inputOf(sitting)
  return { rig, bodies: bodies!, caster: createRayCaster(bodies!.bodies) }
}

test('every place reads the inverse-square law: H·d²/cos is one and the same over the paper', () => {
  const steps = gridSteps({ sitting: set, scene: sceneOf(set), factorStops: 0, columns: 8, rows: 5 })
  let step = steps.next()
  while (!step.done) step = steps.next()
  const { places, sentence } = step.value
  const lit = places.flatMap((place) => (place && place.h > 0 ? [place] : []))
  expect(lit.length).toBeGreaterThan(10)
  // H = I·cos/d², cos = depth/d; of a half sphere that shines evenly I goes as what is seen of it, (1 + cos)/2.
  // Its pieces are 8² here, good to some per cent.
  const constants = lit.map(({ at, h }) => {
    const [x, y, z] = source.centreM.map((c, i) => c - at[i]!) as [number, number, number]
    const d = Math.hypot(x, y, z)
    const cos = Math.abs(z) / d
    return (h * d ** 2) / cos / ((1 + cos) / 2)
  })
  expect(Math.max(...constants) / Math.min(...constants)).toBeLessThan(1.03)
  expect(sentence).toMatch(/places of the backdrop/)
})

test('the page asks for 1,000 places; the next edit leaves them at once', async () => {
  expect(GRID_PLACES.columns * GRID_PLACES.rows).toBe(1000)
  const desk = new AskDesk()
  const rigOf = (sitting: Sitting) => inputOf(sitting).rig
  let looked = 0
  // Somebody has moved on before the first slice is over: no answer, however much was left.
  expect(await desk.grid(set, rigOf, 0, () => ++looked > 0)).toBeNull()
  expect(looked).toBe(1)
})
