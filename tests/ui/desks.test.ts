import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { createRigBuilder, type Rig } from '../../src/rig'
import {
  addSitter,
  addSource,
  firstSitting,
  moveSource,
  type Sitting,
  setBackdrop,
  setPower,
  setSitter,
  setSitterShape,
} from '../../src/sitting'
import { BounceDesk } from '../../src/ui/desks/bounce-desk'
import { ReadingDesk } from '../../src/ui/desks/reading-desk'
import { WeighedSet } from '../../src/ui/desks/weighed-set'

let rigOf: (sitting: Sitting) => Rig
beforeAll(() => {
  rigOf = createRigBuilder({ figure: readFigureAsset(readFileSync('assets/sitter.glb')) })
})

/** Compared as a whole: number by number the test runner takes seconds. */
const bytesOf = ({ buffer, byteOffset, byteLength }: ArrayBufferView) => Buffer.from(buffer, byteOffset, byteLength)

const first = firstSitting()
const moved = moveSource(first, 'key', [-0.7, 1.7, 0.6])

test('a dragged lamp reuses the hit lists; power changes nothing at all', async () => {
  const desk = new BounceDesk()
  const before = await desk.coarse(rigOf(first))
  const after = await desk.coarse(rigOf(moved))
  expect(after.receivers).toBe(before.receivers)
  expect(after.lights[0]).not.toBe(before.lights[0])
  const weaker = await desk.coarse(rigOf(setPower(moved, 'key', -5)))
  expect(weaker.lights[0]).toBe(after.lights[0])
})

test('a turned head, a second sitter, a dialled shape, an added lamp and new paint end as a desk that starts from scratch does', async () => {
  const desk = new BounceDesk()
  const turned = setSitter(first, 'sitter', { headTurnDeg: -20 })
  const { sitting: two, id } = addSitter(setSitterShape(turned, 'sitter', 'narrow'))
  const painted = setBackdrop(setSitterShape(two, id, 'child'), { reflectance: [0.5, 0.1, 0.1] })
  const last = addSource(painted, { role: 'hair' }).sitting
  for (const step of [first, turned, two, last]) await desk.coarse(rigOf(step))
  const scratch = await new BounceDesk().coarse(rigOf(last))
  const followed = await desk.coarse(rigOf(last))
  expect(followed.receivers).toEqual(scratch.receivers)
  expect(followed.lights.map(({ sourceId }) => sourceId)).toEqual(scratch.lights.map(({ sourceId }) => sourceId))
  followed.lights.forEach((light, i) => {
    expect(bytesOf(light.patches).equals(bytesOf(scratch.lights[i].patches))).toBe(true)
    expect(bytesOf(light.vertices).equals(bytesOf(scratch.lights[i].vertices))).toBe(true)
  })
})

test('settled work stops as soon as nobody waits for it', async () => {
  const desk = new BounceDesk()
  let asked = 0
  expect(await desk.settled(rigOf(first), () => ++asked >= 2)).toBeNull()
  expect(asked).toBe(2)
})

test('settled readings stop within their first pass when a newer sitting has come, and the newer one is read', async () => {
  const desk = new ReadingDesk()
  const [rig, newer] = [rigOf(first), rigOf(moved)]
  desk.coarse(first, rig, 'metres')
  const passes: unknown[] = []
  let asked = 0
  expect(
    await desk.settled(
      first,
      rig,
      'metres',
      () => ++asked >= 2,
      (read) => passes.push(read),
    ),
  ).toBeNull()
  expect([asked, passes.length]).toEqual([2, 0])
  desk.coarse(moved, newer, 'metres')
  const read = await desk.settled(
    moved,
    newer,
    'metres',
    () => false,
    (partial) => passes.push(partial),
  )
  expect(passes).toHaveLength(3)
  const fresh = new ReadingDesk()
  expect(read).toEqual(
    await fresh.settled(
      moved,
      newer,
      'metres',
      () => false,
      () => undefined,
    ),
  )
})

test('what is asked of a set before its exposure is known waits for it, and not for an older one', () => {
  const weighed = new WeighedSet()
  const heard: string[] = []
  const ask = (name: string, set: number) => weighed.when(set, (stops) => heard.push(`${name} ${stops}`))
  weighed.know(1, 0.5)
  ask('a', 1)
  ask('b', 2)
  weighed.know(1, 0.7)
  expect(heard).toEqual(['a 0.5'])
  ask('c', 2)
  weighed.know(3, -1)
  weighed.know(4, -2)
  expect(heard).toEqual(['a 0.5', 'c -1'])
})
