import type { Binding, Source, Tolerance } from './binding'
import { Inputs } from './inputs'

/** One record of shared/check-values.json. */
export interface CheckValue {
  readonly id: string
  readonly area: string
  readonly statement: string
  readonly inputs: Readonly<Record<string, unknown>>
  readonly expected: unknown
  readonly tolerance: string
  readonly source: string
}

export interface Miss {
  readonly id: string
  /** Where in `expected`: '' or '.E_lx[3]'. */
  readonly where: string
  readonly expected: unknown
  readonly got: unknown
  readonly tolerance: string
}

/**
 * The number a record's tolerance starts with. 'relative' and 'percent' are relative; a bare number is absolute up to
 * an expected value of 1 and relative above, as the records mean it; 'exact' leaves room for rounding in the last digits.
 */
export function toleranceFromWords(words: string): ((expected: number) => number) | null {
  if (/^exact\b/.test(words)) return (expected) => 1e-12 * Math.max(1, Math.abs(expected))
  const found = words.match(/^(\d[\d.]*(?:e-?\d+)?)(?:\s+(relative|percent))?/)
  if (!found) return null
  const size = Number(found[1])
  if (found[2] === 'percent') return (expected) => (size / 100) * Math.abs(expected)
  if (found[2] === 'relative') return (expected) => size * Math.abs(expected)
  return (expected) => size * Math.max(1, Math.abs(expected))
}

function allowed(record: CheckValue, within: Tolerance | undefined): (expected: number) => number {
  if (within) return (expected) => ('absolute' in within ? within.absolute : within.relative * Math.abs(expected))
  const worded = toleranceFromWords(record.tolerance)
  if (!worded)
    throw new Error(`${record.id}: no number in the tolerance "${record.tolerance}"; the binding must name one`)
  return worded
}

/** All that a binding gets wrong about its record; empty: it passes. */
export function missesOf(record: CheckValue, binding: Binding, source: Source): readonly Miss[] {
  const got = binding.got(source, new Inputs(record.id, record.inputs), record.expected)
  if (binding.holds)
    return binding.holds(got, record.expected)
      ? []
      : [{ id: record.id, where: '', expected: record.expected, got, tolerance: record.tolerance }]
  const limit = allowed(record, binding.within)
  const misses: Miss[] = []
  compare(record.expected, got, '', (where, expected, value) => {
    const fits =
      typeof expected === 'number' ? Math.abs((value as number) - expected) <= limit(expected) : value === expected
    if (!fits) {
      const tolerance = typeof expected === 'number' ? `±${limit(expected).toExponential(1)}` : 'equal'
      misses.push({ id: record.id, where, expected, got: value, tolerance })
    }
  })
  return misses
}

/** Walks both in step. A value on one side only is met as undefined, and so misses. */
function compare(
  expected: unknown,
  got: unknown,
  where: string,
  leaf: (where: string, expected: unknown, got: unknown) => void,
): void {
  const nested = [expected, got].every((value) => typeof value === 'object' && value !== null)
  if (!nested) {
    leaf(where, expected, got)
    return
  }
  const [wanted, given] = [expected as Record<string, unknown>, got as Record<string, unknown>]
  for (const key of new Set([...Object.keys(wanted), ...Object.keys(given)]))
    compare(wanted[key], given[key], Array.isArray(expected) ? `${where}[${key}]` : `${where}.${key}`, leaf)
}
