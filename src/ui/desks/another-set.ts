import type { Sitting } from '../../sitting'

/** What sends and takes light. */
const SET = ['sources', 'sitters', 'panels', 'objects', 'backdrop', 'room'] as const

/** The document is about something else: nobody asks what that changed. */
export const isAnotherDocument = (before: Sitting, now: Sitting): boolean =>
  before.title !== now.title && SET.some((part) => before[part] !== now[part])

/** Another set, and not the last one with something moved: bounced light and exposure of that one say nothing of it. */
export function isAnotherSet(before: Sitting, now: Sitting): boolean {
  if (isAnotherDocument(before, now)) return true
  const kept = now.sources.some(({ id, modifier }) =>
    before.sources.some((old) => old.id === id && old.modifier.kind === modifier.kind),
  )
  return !kept && before.sources !== now.sources
}
