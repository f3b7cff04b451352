import fc from 'fast-check'
import { expect, test } from 'vitest'
import { goTo, recordStep, redo, redoName, startHistory, undo, undoName } from '../../src/sitting'

test('S15 a step is undone and redone by name', () => {
  const moved = recordStep(startHistory('a'), 'move A', 'b')
  expect([undoName(moved), redoName(moved)]).toEqual(['move A', null])
  const back = undo(moved)
  expect([back.present, undoName(back), redoName(back)]).toEqual(['a', null, 'move A'])
  expect(redo(back).present).toBe('b')
})

test('S15 a drag is one step', () => {
  const drag = ['b', 'c', 'd'].reduce((h, state) => recordStep(h, 'move A', state, 'drag 1'), startHistory('a'))
  expect(drag.past).toHaveLength(1)
  expect(undo(drag).present).toBe('a')
  const second = recordStep(drag, 'move A', 'e', 'drag 2')
  expect(undo(second).present).toBe('d')
  // A redone drag is over: the same gesture id does not join it again.
  expect(recordStep(redo(undo(drag)), 'move A', 'f', 'drag 1').past).toHaveLength(2)
})

test('S15 a new step drops what was undone; a change of nothing is no step', () => {
  const h = recordStep(undo(recordStep(startHistory('a'), 'one', 'b')), 'two', 'c')
  expect(redoName(h)).toBeNull()
  expect(recordStep(h, 'nothing', 'c')).toBe(h)
})

/** The model: a list of states and a finger in it. */
test('S15 any row of steps, undos and redos agrees with a list and a finger', () => {
  const command = fc.oneof(
    fc.constant('undo' as const),
    fc.constant('redo' as const),
    fc.record({ gesture: fc.constantFrom(null, 'x', 'y') }),
  )
  fc.assert(
    fc.property(fc.array(command, { maxLength: 40 }), (commands) => {
      let history = startHistory(0)
      const states: { state: number; gesture: string | null }[] = [{ state: 0, gesture: null }]
      let finger = 0
      let next = 1
      for (const c of commands) {
        if (c === 'undo') {
          history = undo(history)
          finger = Math.max(0, finger - 1)
        } else if (c === 'redo') {
          history = redo(history)
          if (finger < states.length - 1) states[++finger].gesture = null
        } else {
          history = recordStep(history, 'step', next, c.gesture)
          const joins = c.gesture !== null && finger > 0 && states[finger].gesture === c.gesture
          states.splice(joins ? finger : ++finger, states.length, { state: next, gesture: c.gesture })
          next++
        }
        expect(history.present).toBe(states[finger].state)
        expect(history.past).toHaveLength(finger)
        expect(history.future).toHaveLength(states.length - 1 - finger)
      }
    }),
  )
})

test('any place of the history can be gone to, and from there any other', () => {
  const names = ['a', 'b', 'c']
  const all = names.reduce((history, name, i) => recordStep(history, name, i + 1), startHistory(0))
  for (const [from, to] of [
    [3, 0],
    [0, 2],
    [2, 3],
    [1, 1],
  ] as const) {
    const there = goTo(goTo(all, from), to)
    expect([there.present, there.past.length, there.future.length]).toEqual([to, to, 3 - to])
  }
  expect(() => goTo(all, 4)).toThrow('expected a place from 0 to 3, got 4')
})
