import { expect, test } from 'vitest'
import { COARSE, nextShare, shareAfterChange } from '../../src/ui/picture/grain'

const rested = { samples: 512, restedMs: 1e5 }
const moving = { samples: 16, restedMs: 5 }

test('a machine that follows the hand goes to full size at once and stays there', () => {
  expect(nextShare({ share: COARSE, coarseBatchMs: 5, batchMs: 5, ...moving })).toBe(1)
  expect(shareAfterChange(1, 5)).toBe(1)
})

test('a slow machine draws finer only when it is left alone, and coarser when the hand moves again', () => {
  expect(nextShare({ share: COARSE, coarseBatchMs: 60, batchMs: 60, ...moving })).toBe(COARSE)
  expect(nextShare({ share: COARSE, coarseBatchMs: 60, batchMs: 60, ...rested })).toBe(1)
  expect(shareAfterChange(1, 60)).toBe(COARSE)
})

test('a very slow one, left alone, comes to the full picture by steps', () => {
  const step = (share: number) => nextShare({ share, coarseBatchMs: 3000, batchMs: 5000, ...rested })
  expect(step(COARSE)).toBeGreaterThan(COARSE)
  expect(step(COARSE)).toBeLessThan(1)
  expect(step(step(COARSE))).toBe(1)
  expect(nextShare({ share: COARSE, coarseBatchMs: 3000, batchMs: 5000, ...moving })).toBe(COARSE)
})

test('it stops where a batch would keep it busy for longer than twelve seconds', () => {
  expect(nextShare({ share: COARSE, coarseBatchMs: 13_000, batchMs: 13_000, ...rested })).toBe(COARSE)
})

test('before anything is measured nothing changes', () => {
  expect(nextShare({ share: COARSE, coarseBatchMs: null, batchMs: 60, ...rested })).toBe(COARSE)
  expect(shareAfterChange(1, null)).toBe(1)
})
