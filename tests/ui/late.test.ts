/** What is shown beside a drawing under the hand follows after the paint, and at once when nothing is held. */
import { afterEach, expect, test, vi } from 'vitest'
import { create } from 'zustand'
import { holdOthers, lateTwin } from '../../src/ui/late'

afterEach(() => {
  holdOthers(false)
  vi.unstubAllGlobals()
})

test('at once; under a hand after the next paint, with the newest; at once when the hand lets go', async () => {
  const frames: (() => void)[] = []
  vi.stubGlobal('requestAnimationFrame', (frame: () => void) => frames.push(frame))
  const first = create(() => ({ n: 0 }))
  const twin = lateTwin(first)
  first.setState({ n: 1 })
  expect(twin.getState().n).toBe(1)
  holdOthers(true)
  first.setState({ n: 2 })
  first.setState({ n: 3 })
  expect(twin.getState().n).toBe(1)
  expect(frames).toHaveLength(1)
  frames.shift()!()
  // Before the paint it is still the old one; a task of its own follows.
  expect(twin.getState().n).toBe(1)
  await vi.waitFor(() => expect(twin.getState().n).toBe(3))
  first.setState({ n: 4 })
  expect(frames).toHaveLength(1)
  holdOthers(false)
  expect(twin.getState().n).toBe(4)
})
