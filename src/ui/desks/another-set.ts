import type { Sitting } from '../../sitting'

/** What sends and takes light; of these, and with another title, the document is about something else. */
const SET = ['sources', 'sitters', 'panels', 'objects', 'backdrop', 'room'] as const

/** Another set, and not the last one with something moved: bounced light and exposure of that one say nothing of it. */
export function isAnotherSet(before: Sitting, now: Sitting): boolean {
  if (before.title !== now.title && SET.some((part) => before[part] !== now[part])) return true
  const kept = now.sources.some(({ id, modifier }) =>
    before.sources.some((old) => old.id === id && old.modifier.kind === modifier.kind),
  )
  return !kept && before.sources !== now.sources
}
