/** The thread beside the page serves who asked last, and then again who asked before: a goal keeps its numbers under a contact sheet. */
import { afterEach, expect, test, vi } from 'vitest'
import { firstSitting } from '../../src/sitting'
import { contactDesk, useContact } from '../../src/ui/contact/contact-desk'

const ended = vi.fn()
class Thread {
  postMessage(): void {}
  terminate = ended
}

afterEach(() => {
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

test('a sheet that is closed gives the thread back to the goal under it', () => {
  vi.useFakeTimers()
  vi.stubGlobal('Worker', Thread)
  vi.stubGlobal('fetch', () => new Promise(() => undefined))
  const row = () => ({
    sittings: [firstSitting()],
    width: 300,
    units: 'metres' as const,
    exposedBy: null,
    looks: undefined,
  })
  const [goal, sheet] = [Symbol('goal'), Symbol('sheet')]
  const [goals, sheets, later] = [row(), row(), row()]
  contactDesk.show(goal, goals)
  contactDesk.show(sheet, sheets)
  expect(useContact.getState().of).toBe(sheets.sittings)
  // What is asked under it waits.
  contactDesk.show(goal, later)
  expect(useContact.getState().of).toBe(sheets.sittings)
  contactDesk.close(sheet)
  expect(useContact.getState().of).toBe(later.sittings)
  expect(ended).not.toHaveBeenCalled()
  contactDesk.close(goal)
  expect(useContact.getState().of).toBeNull()
  // The next comparison may be of the same sets: the thread waits for it, and not for ever.
  expect(ended).not.toHaveBeenCalled()
  vi.runAllTimers()
  expect(ended).toHaveBeenCalledTimes(1)
})
