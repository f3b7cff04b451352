/**
 * `now`, with every part that equals the same part of `before` replaced by it. A message between threads is a copy, so
 * nothing in it is the object it was; whoever remembers by identity (the rig's builder, the renderer) would start again.
 */
export function shareWith<T>(before: unknown, now: T): T {
  if (Object.is(before, now)) return now
  if (before === null || now === null || typeof before !== 'object' || typeof now !== 'object') return now
  if (Array.isArray(before) !== Array.isArray(now)) return now
  const old = before as Record<string, unknown>
  const keys = Object.keys(now)
  let same = keys.length === Object.keys(old).length
  const parts = Array.isArray(now) ? [] : ({} as Record<string, unknown>)
  for (const key of keys) {
    const part = shareWith(old[key], (now as Record<string, unknown>)[key])
    ;(parts as Record<string, unknown>)[key] = part
    if (!(key in old) || !Object.is(part, old[key])) same = false
  }
  return (same ? before : parts) as T
}
