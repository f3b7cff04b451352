/**
 * `now`, with every part that equals the same part of `before` replaced by it. A message between threads is a copy, so
 * nothing in it is the object it was; whoever remembers by identity (the rig's builder, the renderer) would start again.
 */
export function shareWith<T>(before: unknown, now: T): T {
  if (Object.is(before, now)) return now
  if (before === null || now === null || typeof before !== 'object' || typeof now !== 'object') return now
  if (Array.isArray(before) !== Array.isArray(now)) return now
  const old = before as Record<string, unknown>
  // Own fields alone: a document may hold one of any name, `__proto__` too.
  const parts = Object.entries(now).map(([key, part]): [string, unknown] => [
    key,
    Object.hasOwn(old, key) ? shareWith(old[key], part) : part,
  ])
  const same =
    parts.length === Object.keys(old).length &&
    parts.every(([key, part]) => Object.hasOwn(old, key) && Object.is(part, old[key]))
  if (same) return before as T
  return (Array.isArray(now) ? parts.map(([, part]) => part) : Object.fromEntries(parts)) as T
}
