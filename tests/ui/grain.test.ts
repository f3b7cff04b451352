import { expect, test } from 'vitest'
import { COARSE, nextShare, shareAfterChange } from '../../src/ui/picture/grain'

const rested = { samples: 512, restedMs: 1e5 }

test('a machine that follows the hand goes to full size at once and stays there', () => {
  expect(nextShare({ share: COARSE, coarseBatchMs: 5, samples: 16, restedMs: 5 })).toBe(1)
  expect(shareAfterChange(1, 5)).toBe(1)
})

test('a slow machine draws finer only when it is left alone, and coarser when the hand moves again', () => {
  expect(nextShare({ share: COARSE, coarseBatchMs: 60, samples: 16, restedMs: 100 })).toBe(COARSE)
  expect(nextShare({ share: COARSE, coarseBatchMs: 60, ...rested })).toBe(1)
  expect(shareAfterChange(1, 60)).toBe(COARSE)
})

test('a very slow one gets as many pixels as it finishes a batch of in 1.5 s, never fewer than coarse', () => {
  const share = nextShare({ share: COARSE, coarseBatchMs: 600, ...rested })
  expect((600 / COARSE ** 2) * share ** 2).toBeLessThanOrEqual(1500)
  expect(share).toBeGreaterThan(COARSE)
  expect(nextShare({ share: COARSE, coarseBatchMs: 5000, ...rested })).toBe(COARSE)
})

test('before anything is measured nothing changes', () => {
  expect(nextShare({ share: COARSE, coarseBatchMs: null, ...rested })).toBe(COARSE)
  expect(shareAfterChange(1, null)).toBe(1)
})
