import { expect, test } from 'vitest'
import { readingsCommand } from '../../src/commands/readings-command'
import { movedSteps, OFFS, type ShiftsById, shiftWords } from '../../src/readings'
import type { Sitting } from '../../src/sitting'
import { inputOf, lamp, setOf, take } from './set'

/** By how much each reading changes in sets a little off, and the readings themselves. */
function moved(sitting: Sitting) {
  const taken = take(sitting)
  const again = (other: Sitting) => {
    const { rig, bodies, caster } = inputOf(other)
    return { rig, bodies: bodies!, caster }
  }
  const steps = movedSteps({ sitting, exposure: taken.exposure, indirect: taken.indirect, again })
  let step = steps.next()
  let count = 1
  for (; !step.done; count++) step = steps.next()
  return { ...taken, shifts: step.value as ShiftsById, steps: count }
}
const D = 1.5
const set = (reExpose: Sitting['reExpose'], change: Partial<Sitting> = {}) =>
  setOf([lamp('A', { az: 40, el: 35, d: D })], { reExpose, ...change })
const FACE = 'exposure.nearCheek.disc.light'

/** Inverse square; the cheek stands some centimetres before the eyes, and the dish is no point: 0.03 stop. */
test('10 cm nearer or farther is 2·log₂ of the distances, lamps left as they were metered', () => {
  for (const reExpose of ['powers', 'f-number'] as const) {
    const { shifts, value } = moved(set(reExpose))
    const d = value('source.A.tape')
    const { nearer, farther } = shifts[FACE]!
    expect(Math.abs(nearer! - 2 * Math.log2(d / (d - 0.1))), reExpose).toBeLessThan(0.03)
    expect(Math.abs(farther! - 2 * Math.log2(d / (d + 0.1))), reExpose).toBeLessThan(0.03)
    // What is asked of the head for the same f-number is as much less.
    expect(shifts['source.A.power']!.nearer!, reExpose).toBeCloseTo(-nearer!, 6)
    // In its own unit: metres.
    expect(Math.abs(shifts['source.A.tape']!.nearer! + 0.1), reExpose).toBeLessThan(0.003)
  }
})

/** trade.md §1.2, question 72, computed: a sitter 10 cm taller takes 35° to 31° at 1.25 m. */
test('a head turned 10° is 10° of azimuth from the nose; a sitter 10 cm taller 4° of elevation at 1.25 m', () => {
  const { shifts } = moved(setOf([lamp('A', { az: 40, el: 35, d: 1.25 })]))
  const round = shifts['source.A.azimuthFromNose']!
  // The eyes go round the neck and come nearer to one side.
  expect(Math.abs(round.right! + 10)).toBeLessThan(2)
  expect(Math.abs(round.left! - 10)).toBeLessThan(2)
  expect(Math.abs(shifts['source.A.elevation']!.taller! + 4)).toBeLessThan(0.7)
  expect(shifts['camera.lensHeight']).toEqual(Object.fromEntries(OFFS.map((off) => [off, 0])))
})

test('what a head cannot do is left out; a source far off has no nearer; a set a step, so that a worker may leave', () => {
  const turned = set('nothing', { sitters: [{ ...set('nothing').sitters[0]!, headTurnDeg: 85 }] })
  const { shifts, steps } = moved(turned)
  expect(shifts[FACE]).not.toHaveProperty('right')
  expect(shifts[FACE]).toHaveProperty('left')
  expect(steps).toBe(OFFS.length + 1)
  const sun = lamp('A', { az: 40, el: 35, d: 2, modifier: { kind: 'sun', illuminanceLx: 80_000, apparentDeg: 0.53 } })
  const outside = moved(setOf([sun], { room: { ...set('nothing').room, outdoors: true }, reExpose: 'f-number' }))
  expect(outside.shifts[FACE]).not.toHaveProperty('nearer')
  // Parallel light: a taller sitter gets as much.
  expect(Math.abs(outside.shifts[FACE]!.taller!)).toBeLessThan(0.02)
})

test('in words: only what is known, in the reading’s unit and as finely as it is written', () => {
  const { of, shifts } = moved(set('powers'))
  const words = (id: string) => shiftWords(of(id), shifts[id], 'A', 'metres')
  expect(words(FACE)).toMatch(
    /^A 10 cm nearer \+0\.\d, farther −0\.\d; head 10° to camera right [−+]?0\.\d, left [−+]?0\.\d; sitter 10 cm taller [−+]?0\.\d \(stop\)$/,
  )
  expect(words('camera.lensHeight')).toMatch(/^nothing that shows/)
  expect(words('source.A.tape')).toMatch(/nearer −0\.10, farther \+0\.10;.*\(m\)$/)
  expect(words('face.pattern')).toBeNull()
  expect(shiftWords(of(FACE), shifts[FACE], 'A', 'feet')).toMatch(/^A 4″ nearer/)
})

test('the command tells them beside each number', async () => {
  const scene = 'scenes/hard-key-from-the-side.sitting.json'
  const { out } = await readingsCommand([scene, '--paths', '0', '--moved'])
  expect(out).toMatch(/exposure\.nearCheek\.disc\.light .* If the set is off: A 10 cm nearer \+0\.\d/)
})
