import { readFileSync } from 'node:fs'
import { expect, test, vi } from 'vitest'
import { readLesson } from '../../src/lesson'
import {
  askAgain,
  cutShows,
  explainedAt,
  goBack,
  goTo,
  inTurns,
  mayCut,
  noteDone,
  questionsAt,
  reach,
  startLesson,
  useLesson,
} from '../../src/ui/lesson/lesson-store'
import { useStore } from '../../src/ui/store'

const result = readLesson(readFileSync('scenes/lessons/02-size-makes-softness.lesson.json', 'utf8'))
if ('problems' in result) throw new Error('no lesson')
const { lesson } = result

test('nobody goes past a prediction that is not in', () => {
  startLesson(lesson)
  expect(reach(lesson, {})).toBe(0)
  goTo(1)
  expect(useLesson.getState().step).toBe(0)
  useLesson.setState({ given: { 0: 2 } })
  expect(reach(lesson, { 0: 2 })).toBe(2)
  expect(reach(lesson, { 0: 2, 2: 33 })).toBe(4)
  expect(reach(lesson, { 0: 2, 2: 33, 4: 1 })).toBe(lesson.steps.length - 1)
  goTo(1)
  expect(useLesson.getState().step).toBe(1)
})

test('begun anew by a slip, a lesson goes back to its answers, whatever lesson came between', () => {
  useLesson.setState({ given: { 0: 2, 2: 33 }, step: 3 })
  startLesson(lesson)
  expect(useLesson.getState()).toMatchObject({ given: {}, step: 0 })
  startLesson({ ...lesson, title: 'Another' })
  startLesson(lesson)
  vi.spyOn(performance, 'now').mockReturnValue(performance.now() + 1000)
  goBack()
  vi.restoreAllMocks()
  expect(useLesson.getState()).toMatchObject({ given: { 0: 2, 2: 33 }, step: 3 })
})

test('each question has a key of its own', () => {
  const keys = lesson.steps.flatMap((_, i) => questionsAt(lesson, i).map(({ key }) => key))
  expect(new Set(keys).size).toBe(keys.length)
  expect(keys.length).toBe(9)
})

test('asked anew, a quiz has all of its questions in another order than the time before', () => {
  for (const count of [2, 3, 5, 6]) {
    const asked = Array.from({ length: count }, (_, i) => ({ ...questionsAt(lesson, 8)[0]!, key: `${i}` }))
    const orders = [0, 1, 2, 3, 4].map((round) =>
      inTurns(asked, round)
        .map(({ key }) => key)
        .join(''),
    )
    expect(orders[0]).toBe(asked.map(({ key }) => key).join(''))
    orders.forEach((order, i) => {
      expect([...order].sort().join('')).toBe(orders[0])
      if (i > 0) expect(order, `${count} questions, round ${i}`).not.toBe(orders[i - 1])
    })
  }
})

// Last: its clock runs ahead of the others'.
test('a held key changes the picture at most three times a second (the accessibility guideline on flashing, WCAG 2.3.1)', () => {
  const changes = Array.from({ length: 4000 }, (_, ms) => mayCut(1e6 + ms)).flatMap((done, ms) => (done ? [ms] : []))
  for (const start of changes)
    expect(changes.filter((at) => at >= start && at < start + 1000).length).toBeLessThanOrEqual(3)
  expect(changes.length).toBeGreaterThan(8)
})

test('nor more often where a change shows late, now and then (the same guideline)', () => {
  const shown: number[] = []
  let due = Number.POSITIVE_INFINITY
  for (let ms = 2e6; ms < 2e6 + 8000; ms++) {
    if (ms >= due) {
      cutShows(ms)
      shown.push(ms)
      due = Number.POSITIVE_INFINITY
    } else if (due > ms + 1e6 && mayCut(ms)) due = ms + (shown.length % 4 === 0 ? 300 : 5)
  }
  for (const start of shown)
    expect(shown.filter((at) => at >= start && at < start + 1000).length).toBeLessThanOrEqual(3)
  expect(shown.length).toBeGreaterThan(12)
})

test('a quiz is tried again with none of its answers, all others kept; what explains it is the last that came before', () => {
  startLesson(lesson)
  useLesson.setState({ given: { 0: 2, '8.0': 1, '8.4': 2 } })
  askAgain(8)
  expect(useLesson.getState().given).toEqual({ 0: 2 })
  expect([explainedAt(lesson, 8), explainedAt(lesson, 6), explainedAt(lesson, 2)]).toEqual([6, null, null])
})

test('a lesson is done, once, when its last step is passed and no question of it is missed', () => {
  startLesson(lesson)
  const done = () => useStore.getState().session.lessonsDone
  const last = lesson.steps.length - 1
  for (const [step, missed] of [
    [last - 1, []],
    [last, [last - 1]],
  ] as const) {
    useLesson.setState({ step, missed })
    noteDone()
    expect(done()).toEqual([])
  }
  useLesson.setState({ step: last, missed: [] })
  noteDone()
  noteDone()
  expect(done()).toEqual(['Soft or hard shadow'])
})
