/** What the last step changed, in words: by the readings of both sets, as they were read to the end. */
import { expect, test } from 'vitest'
import type { Reading } from '../../src/readings'
import { firstSitting, goTo, keepTake, recordStep, setPower, setReExpose, startHistory, undo } from '../../src/sitting'
import { lastChange, stepTold } from '../../src/ui/changed'
import { rememberReadings } from '../../src/ui/read-before'
import { COMPARED, showTake } from '../../src/ui/takes/take'

const reading = (id: string, value: number): Reading => ({
  ...{ id, value, unit: '', text: '', band: null, sentence: '', sourceId: null },
  place: { name: '', at: null },
  why: { formula: '', filled: '', source: '' },
})
const first = firstSitting()
const weaker = setPower(first, 'key', -5)

test('told once both sets are read, by the step’s name; the selected source counts, else the first that is on', () => {
  const history = recordStep(startHistory(first), 'power of A', weaker)
  expect(lastChange(startHistory(first), 'key')).toBeNull()
  rememberReadings(first, [reading('edge.A.nose.full', 20), reading('backdrop.stops', -2)])
  expect(lastChange(history, 'key')).toBeNull()
  rememberReadings(weaker, [reading('edge.A.nose.full', 40), reading('backdrop.stops', -1.8)])
  const told = { step: 'power of A', words: 'shadow edge 2.0 times as wide', power: '' }
  expect(lastChange(history, 'key')).toEqual(told)
  expect(lastChange(history, null)).toEqual(told)
  rememberReadings(weaker, [reading('edge.A.nose.full', 21), reading('backdrop.stops', -1.8)])
  expect(lastChange(history, 'camera')).toEqual({
    step: 'power of A',
    words: 'too little for the eye, by the numbers: shadow edge 5 % wider, the backdrop 0.2 stop lighter',
    power: '',
  })
})

test('a set that is kept as a take and then changed is told against what was read of it before it was kept', () => {
  rememberReadings(first, [reading('edge.A.nose.full', 20)])
  const kept = keepTake(first)
  const changed = setPower(kept, 'key', -5)
  rememberReadings(changed, [reading('edge.A.nose.full', 40)])
  const history = recordStep(recordStep(startHistory(first), 'keep as take 1', kept), 'power of A', changed)
  expect(lastChange(history, 'key')).toMatchObject({ step: 'power of A', words: 'shadow edge 2.0 times as wide' })
})

test('a take that is kept is told as such, not as a difference that failed', () => {
  const kept = keepTake(first)
  expect(lastChange(recordStep(startHistory(first), 'take 1 kept', kept), 'key')).toMatchObject({
    step: 'take 1 kept',
    words: 'once the set is changed, ‹compare› beside it shows both',
  })
  // Of a second one it tells what the words that come with it do; deleted, there is nothing to tell.
  const second = keepTake({ ...weaker, takes: kept.takes })
  const one = { ...second, takes: kept.takes }
  expect(lastChange(recordStep(startHistory(one), 'take 2 kept', second), 'key')?.words).toMatch(
    /‹compare›: both .*‹split picture›: both .*‹in turn›: one after/,
  )
  expect(lastChange(recordStep(startHistory(second), 'take 2 deleted', one), 'key')?.words).toBe(
    'nothing in the set has changed',
  )
})

test('at equal exposure the power that followed is told: twice the energy is one stop', () => {
  const joules = (value: number) => ({ ...reading('source.A.power', value), unit: 'J' })
  rememberReadings(first, [reading('edge.A.nose.full', 20), joules(24)])
  rememberReadings(weaker, [reading('edge.A.nose.full', 40), joules(48)])
  expect(lastChange(recordStep(startHistory(first), 'A tape', weaker), 'key')).toEqual({
    step: 'A tape',
    words: 'shadow edge 2.0 times as wide; equal exposure: the power of A followed, 1.0 stop more',
    power: 'A 1.0 stop more',
  })
})

test('a step that is taken back is told as such, from what it had made to what stands again', () => {
  rememberReadings(first, [reading('edge.A.nose.full', 20), reading('backdrop.stops', -2.64)])
  rememberReadings(weaker, [reading('edge.A.nose.full', 40), reading('backdrop.stops', -3.04)])
  const back = undo(recordStep(recordStep(startHistory(first), 'A on', first), 'A tape', weaker))
  expect(lastChange(back, 'key', -1)).toMatchObject({
    step: 'undone: A tape',
    // Of the figures as they are shown, −3.0 and −2.6.
    words: 'shadow edge 50 % narrower, the backdrop 0.4 stop lighter',
  })
  expect(lastChange(back, 'key', 0)).toBeNull()
})

test('several steps gone at once are told together, from the set that was left to the one that stands', () => {
  const third = setPower(weaker, 'key', -6)
  rememberReadings(first, [reading('edge.A.nose.full', 20)])
  rememberReadings(weaker, [reading('edge.A.nose.full', 30)])
  rememberReadings(third, [reading('edge.A.nose.full', 40)])
  const made = recordStep(recordStep(startHistory(first), 'A tape', weaker), 'A kind', third)
  const back = goTo(made, 0)
  expect(lastChange(back, 'key', -2)).toMatchObject({
    step: 'undone: 2 steps',
    words: 'shadow edge 50 % narrower',
  })
  expect(lastChange(goTo(back, 2), 'key', 2)).toMatchObject({
    step: '2 steps again',
    words: 'shadow edge 2.0 times as wide',
  })
})

test('takes that go with several undone steps are named', () => {
  const [near, kept] = [setPower(first, 'key', -5), keepTake(setPower(first, 'key', -5))]
  const made = recordStep(recordStep(startHistory(first), 'power of A', near), 'take 1 kept', kept)
  expect(stepTold(goTo(made, 0), -2)?.name).toBe('undone: 2 steps, take 1 among them')
})

test('at equal power a step that makes the picture brighter is told by how much (N² law)', () => {
  const [before, after] = [first, weaker].map((sitting) => setReExpose(sitting, 'nothing'))
  rememberReadings(before!, [reading('exposure.nearCheek.disc.light', 8)])
  rememberReadings(after!, [reading('exposure.nearCheek.disc.light', 4)])
  const history = recordStep(startHistory(before!), 'power of A', after!)
  expect(lastChange(history, 'key')?.words).toBe('the picture 2.0 stops darker')
})

test('takes shown in turn are told one against the other, not against the set before the comparison', () => {
  const kept = keepTake(setPower(keepTake(first), 'key', -5))
  const one = showTake(kept, 'take 1')
  const two = showTake(one, 'take 2')
  rememberReadings(kept, [reading('edge.A.nose.full', 40)])
  rememberReadings(one, [reading('edge.A.nose.full', 20)])
  rememberReadings(two, [reading('edge.A.nose.full', 40)])
  const shown = recordStep(
    recordStep(startHistory(kept), 'take 1 | take 2', one, COMPARED),
    'take 1 | take 2',
    two,
    COMPARED,
  )
  expect(lastChange(shown, 'key')).toMatchObject({
    step: 'take 2 against take 1',
    words: 'shadow edge 2.0 times as wide',
  })
})

test('a take that was read again meanwhile is still told against the other', () => {
  const kept = keepTake(setPower(keepTake(first), 'key', -5))
  const [one, two, again] = ['take 1', 'take 2', 'take 2'].map((name) => showTake(kept, name))
  for (const [sitting, mm] of [
    [one, 20],
    [kept, 40],
    [two, 40],
    [again, 40],
  ] as const)
    rememberReadings(sitting!, [reading('edge.A.nose.full', mm)])
  const shown = recordStep(startHistory(kept), 'take 1 | take 2', again!, COMPARED)
  expect(lastChange(shown, 'key')).toMatchObject({
    step: 'take 2 against take 1',
    words: 'shadow edge 2.0 times as wide',
  })
})
