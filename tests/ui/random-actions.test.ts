/**
 * A thousand sequences of anything that a person can do, through the store: no error, the document always holds, undo gives
 * the start back byte for byte, and what is kept on the device is the state. Any failure tells its seed: SEED=n replays it.
 */
import { expect, test, vi } from 'vitest'
import { checkSitting, firstSitting, problemSentence, writeSitting } from '../../src/sitting'
import { keepDesk } from '../../src/ui/storage'
import { currentSitting, jump, restore, useStore } from '../../src/ui/store'
import { doRandomly } from './random-hand'

const { SEED } = process.env
const SEEDS = SEED ? [Number(SEED)] : Array.from({ length: 1000 }, (_, i) => i + 1)
const ACTIONS = 10
/** Text is made of a set this often only; in between it is enough that the start is the very same record, which nothing can have changed. */
const TEXT_EVERY = 20

/** Whoever wrote into it would throw. */
function frozen<T>(value: T): T {
  if (value === null || typeof value !== 'object' || Object.isFrozen(value)) return value
  Object.values(Object.freeze(value)).forEach(frozen)
  return value
}

test(`${SEEDS.length} sequences of ${ACTIONS} random actions: no error, all undone, all kept`, async () => {
  vi.useFakeTimers()
  let kept = ''
  const end = keepDesk(async ({ sitting }) => {
    kept = sitting ?? kept
  })
  const steps = new Set<string>()
  const start = frozen(firstSitting())
  const text = writeSitting(start)
  try {
    for (const seed of SEEDS) {
      restore(start, {})
      const done: string[] = []
      const where = () => `seed ${seed}: ${done.join(', ')}`
      try {
        doRandomly(seed, ACTIONS, done)
      } catch (error) {
        throw new Error(where(), { cause: error })
      }
      for (const name of done) steps.add(name)
      const now = currentSitting()
      expect(checkSitting(now).map(problemSentence), where()).toEqual([])
      const asText = seed % TEXT_EVERY === 0 || SEED !== undefined
      if (asText) {
        await vi.advanceTimersByTimeAsync(500)
        expect(kept === writeSitting(now), `kept, ${where()}`).toBe(true)
      }
      jump(0)
      expect(currentSitting() === start, `undone, ${where()}`).toBe(true)
      if (asText) expect(writeSitting(currentSitting()) === text, `undone, ${where()}`).toBe(true)
      const { past, future } = useStore.getState().history
      jump(past.length + future.length)
      jump(0)
      expect(currentSitting(), `undone twice, ${where()}`).toBe(start)
    }
  } finally {
    end()
    vi.useRealTimers()
  }
  expect(steps.size, 'a hand that never does something proves nothing of it').toBe(20)
})
