import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { assembleRig, loadCentre, type Standing, standingOf } from '../../src/rig'
import { firstSitting, type Sitting } from '../../src/sitting'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const BOOM = { name: 'boom stand', highestM: 1.6, loadKg: 5, boomM: 1.5 }

/** A hair light behind the sitter, 2.2 m up, and how it is held there. */
function held(change: Partial<Sitting>, stand: typeof BOOM | null = BOOM): Standing & { readonly sitting: Sitting } {
  const first = firstSitting()
  const [source] = first.sources
  const sitting: Sitting = {
    ...first,
    sources: [{ ...source, centreM: [0, 2.2, -0.8], aimM: [0, 1.3, 0], ...(stand && { stand }) }],
    ...change,
  }
  const rig = assembleRig(sitting, { figure })
  return { sitting, ...standingOf(sitting, rig.view, rig.sources[0]) }
}
const outdoors = { room: { ...firstSitting().room, outdoors: true }, backdrop: null }

test('without a boom the stand is under the lamp', () => {
  const { foot, load, pivot } = held(outdoors, null)
  expect(pivot).toBeNull()
  expect(foot).toEqual([load[0], 0, load[2]])
})

test('a boom has its own length from lamp to pivot, level as far as its stand goes up (Pythagoras), and points away from the sitter', () => {
  const { foot, load, pivot } = held(outdoors)
  expect(Math.hypot(load[0] - pivot![0], load[1] - pivot![1], load[2] - pivot![2])).toBeCloseTo(1.5, 9)
  expect(pivot![1]).toBeCloseTo(1.6, 9)
  expect(Math.hypot(foot[0] - load[0], foot[2] - load[2])).toBeCloseTo(Math.sqrt(1.5 ** 2 - (load[1] - 1.6) ** 2), 9)
  expect(Math.hypot(foot[0], foot[2])).toBeGreaterThan(Math.hypot(load[0], load[2]))
})

test('where a backdrop or a wall is in the way the boom comes from the side, and its stand keeps out of the picture', () => {
  const { foot, load, sitting } = held({ backdrop: { ...firstSitting().backdrop!, distanceM: 1.6 } })
  expect(foot[2] - 0.5).toBeGreaterThan(-1.6)
  expect(Math.abs(foot[0] - load[0])).toBeGreaterThan(1)
  const { widthM, xM } = sitting.room
  expect(widthM / 2 - Math.abs(foot[0] - xM)).toBeGreaterThanOrEqual(0.5)
  expect(loadCentre(assembleRig(sitting, { figure }).sources[0])).toEqual(load)
})
