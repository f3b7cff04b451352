import { type Problem, problemSentence, readSitting, type Sitting, shown } from '../sitting'
import type { Changes, Lesson } from './types'

/** 'sources[0].modifier.diameterM' as its keys; null: no such notation. */
function keysOf(path: string): readonly (string | number)[] | null {
  const parts = path.match(/[A-Za-z_$][\w$-]*|\[\d+\]/g)
  const isWhole = parts?.reduce((text, part) => (part[0] === '[' || text === '' ? text + part : `${text}.${part}`), '')
  return parts && isWhole === path ? parts.map((part) => (part[0] === '[' ? Number(part.slice(1, -1)) : part)) : null
}

/** A copy with that value there; null: the place is not in it. The last key of a record may be new. */
function put(target: unknown, [key, ...rest]: readonly (string | number)[], value: unknown): unknown {
  if (target === null || typeof target !== 'object' || Array.isArray(target) !== (typeof key === 'number')) return null
  const known = Object.hasOwn(target, key!)
  if (!known && (rest.length > 0 || Array.isArray(target))) return null
  const inner = rest.length === 0 ? value : put((target as Record<string, unknown>)[key!], rest, value)
  if (rest.length > 0 && inner === null) return null
  if (Array.isArray(target)) return target.map((entry, i) => (i === key ? inner : entry))
  return { ...target, [key!]: inner }
}

const asked = (path: string, expected: string, got: string, advice: string): Problem => ({
  rule: 'L7',
  path,
  expected,
  got,
  advice,
})

/** The sitting with those changes, or what is wrong with them. where: of the state, in its file. */
export function changedSitting(
  start: Sitting,
  changes: Changes,
  where: string,
): { readonly sitting: Sitting } | { readonly problems: readonly Problem[] } {
  let changed: unknown = start
  for (const [path, value] of Object.entries(changes)) {
    const keys = keysOf(path)
    const next = keys && put(changed, keys, value)
    if (!next)
      return {
        problems: [
          asked(
            `${where}.changes`,
            'a place of the sitting, such as "sources[0].head.powerStops"',
            shown(path),
            'Name a place that start has.',
          ),
        ],
      }
    changed = next
  }
  const result = readSitting(changed)
  if ('sitting' in result) return { sitting: result.sitting }
  return {
    problems: result.problems.map((problem) =>
      asked(`${where}.changes`, 'changes that leave a sitting', problemSentence(problem), 'Mend that change.'),
    ),
  }
}

/** A state by name; null: none has it. Throws Error where its changes leave no sitting, which reading the lesson rules out. */
export function sittingOf({ start, sets }: Pick<Lesson, 'start' | 'sets'>, name: string): Sitting | null {
  const index = sets.findIndex((set) => set.name === name)
  if (index < 0) return null
  const result = changedSitting(start, sets[index]!.changes, `sets[${index}]`)
  if ('problems' in result) throw new Error(`lesson.sittingOf: ${result.problems.map(problemSentence).join(' ')}`)
  return result.sitting
}

type Raw = Readonly<Record<string, unknown>>
const isRecord = (value: unknown): value is Raw => value !== null && typeof value === 'object' && !Array.isArray(value)
const isPlain = (key: string): boolean => /^[A-Za-z_$][\w$-]*$/.test(key)

/** A sitting's own titles and takes say nothing of the light. */
const OWN_WORDS = ['title', 'note', 'takes']

/** In what one sitting differs from another, as small as it can be written; put back with changedSitting. */
export function changesBetween(from: Sitting, to: Sitting): Changes {
  const changes: Record<string, unknown> = {}
  const walk = (path: string, a: unknown, b: unknown): void => {
    if (JSON.stringify(a) === JSON.stringify(b)) return
    if (Array.isArray(a) && Array.isArray(b) && a.length === b.length && b.every(isRecord))
      for (const [i, entry] of b.entries()) walk(`${path}[${i}]`, a[i], entry)
    else if (
      isRecord(a) &&
      isRecord(b) &&
      Object.keys({ ...a, ...b }).every((key) => isPlain(key) && b[key] !== undefined)
    )
      for (const key of Object.keys(b)) walk(path ? `${path}.${key}` : key, a[key], b[key])
    else changes[path] = b
  }
  const light = (sitting: Sitting): Raw =>
    Object.fromEntries(Object.entries(sitting).filter(([key]) => !OWN_WORDS.includes(key)))
  // A field that is gone at the top cannot be said by a value; a set whose optional fields are gone keeps them.
  walk('', light(from), { ...light(from), ...light(to) })
  return changes
}
