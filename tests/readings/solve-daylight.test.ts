import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { applyEdits, type Goal } from '../../src/readings'
import type { Sitting, Source } from '../../src/sitting'
import { ask, headOf, MAIN } from './ask'
import { lamp, setOf, stopsBetween, take } from './set'

/** Flash beside light that burns on: daylight has no dial, and a slow shutter makes it count. The readings are the judge. */

const head = headOf({ energyJ: 600, lowestStops: -9, powerStops: -3 })
const steady = (letter: string, kind: string, role: Source['role'], at: { az: number; el: number; d: number }) =>
  lamp(letter, { ...at, role, modifier: defaultModifier(kind), head: headOf({ powerStops: 0, lowestStops: -6 }) })
const flash = lamp('A', { az: 40, el: 25, d: 1.5, head })
const flashFill = lamp('B', { az: -20, el: 10, d: 2, role: 'fill', head: { ...head, powerStops: -5 } })
const daylight = (role: Source['role']) => steady('W', 'window', role, { az: -70, el: 5, d: 1.8 })
const sun = steady('S', 'sun', 'kicker', { az: 120, el: 40, d: 3 })
const panel = steady('L', 'led-panel', 'fill', { az: -30, el: 10, d: 1.2 })

const SETS: readonly (readonly [string, readonly Source[]])[] = [
  ['flash key, fill, window', [flash, flashFill, daylight('kicker')]],
  ['window key, flash fill', [daylight('key'), flashFill]],
  ['flash key, fill, sun', [flash, flashFill, sun]],
  ['flash key, LED fill', [flash, panel]],
]
const GOALS: readonly Goal[] = [
  { kind: 'f-number', fNumber: 8 },
  { kind: 'fill under key', stops: 1 },
  { kind: 'far cheek under near', stops: 1.2 },
]

/** By the readings after the edits, in the goal's own terms; stops for an f-number. */
const off = (goal: Goal, sitting: Sitting, promised: number): number => {
  const { value } = take(sitting)
  if (goal.kind === 'f-number') return stopsBetween(promised, value(MAIN))
  return (goal.kind === 'fill under key' ? Math.log2(value('ratio.keyFill')) : -value('ratio.nearFar')) - promised
}

test.each(SETS)('%s: what is promised is read after the edits, and no re-exposure takes it back', (_, sources) => {
  let had = 0
  for (const [reExpose, shutterS] of [
    ['powers', 1 / 8],
    ['nothing', 1 / 160],
  ] as const) {
    const base = setOf(sources, { reExpose })
    const set: Sitting = {
      ...base,
      room: { ...base.room, outdoors: true },
      camera: { ...base.camera, shutterS, fNumber: 8 },
    }
    for (const goal of GOALS) {
      const { way, sentence, others } = ask(set, goal)
      const said = `${reExpose} ${JSON.stringify(goal)}: ${sentence}`
      if (!way) expect(sentence, said).toMatch(/too (strong|weak)|alone gives|lies outside|dial/)
      for (const { edits, promised } of [...(way ? [way] : []), ...others]) {
        had++
        const after = applyEdits(set, edits)
        expect(Math.abs(off(goal, after, promised)), said).toBeLessThan(0.02)
        if (reExpose === 'powers') expect(Math.abs(take(after).exposure.factorStops), said).toBeLessThan(0.025)
        // Nothing turns daylight up or down.
        for (const { id, modifier, head: now } of after.sources)
          if (['window', 'sun'].includes(modifier.kind))
            expect(now, said).toEqual(set.sources.find((source) => source.id === id)!.head)
      }
    }
  }
  expect(had).toBeGreaterThan(2)
})

test('a window for a fill has no dial: said so; flash over daylight is asked for by the difference', () => {
  const mixed = setOf([flash, daylight('fill')], { reExpose: 'nothing' })
  const slow = { ...mixed, camera: { ...mixed.camera, shutterS: 1 / 2 } }
  expect(ask(slow, { kind: 'fill under key', stops: 1 }).sentence).toMatch(/W, is daylight and has no dial/)
  // H flash = H asked − H daylight [EXP-INC: H = C·N²/S]: what the window gives is not to be given again.
  const alone = take({ ...slow, sources: [slow.sources[1]!] }).value('source.W.alone')
  const light = take({ ...slow, sources: slow.sources.map((s) => (s.letter === 'W' ? { ...s, on: false } : s)) })
  const flashOnly = light.value(MAIN)
  const both = take(slow).value(MAIN)
  const steadyThere = both ** 2 - flashOnly ** 2
  expect(alone).toBeGreaterThan(0)
  const asked = both / Math.SQRT2
  const { way } = ask(slow, { kind: 'f-number', fNumber: asked })
  const power = way!.edits.find((edit) => edit.kind === 'power' && edit.sourceId === 'source-A')
  const expected = head.powerStops + Math.log2((asked ** 2 - steadyThere) / flashOnly ** 2)
  expect(power).toMatchObject({ powerStops: expect.closeTo(expected, 6) })
})
