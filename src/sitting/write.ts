import { problemSentence } from './problems'
import { readSitting } from './read'
import type { Sitting } from './types'

/**
 * The text of a sitting file (S13): known fields in the order of the schema, unknown ones after them, two spaces a
 * level, points on one line, one newline at the end. The same content always gives the same text.
 * Throws on a sitting that could not be read back, for such a file would be lost work.
 */
export function writeSitting(sitting: Sitting): string {
  const result = readSitting(sitting)
  if ('problems' in result) throw new Error(`sitting.writeSitting: ${result.problems.map(problemSentence).join(' ')}`)
  return `${pretty(result.sitting, '')}\n`
}

/** JSON as our files have it: two spaces a level, lists of plain values on one line. */
export function pretty(value: unknown, indent: string): string {
  if (value === null || typeof value !== 'object') return JSON.stringify(value)
  const inner = `${indent}  `
  if (Array.isArray(value)) {
    if (value.every((entry) => entry === null || typeof entry !== 'object'))
      return `[${value.map((entry) => JSON.stringify(entry)).join(', ')}]`
    return `[\n${value.map((entry) => inner + pretty(entry, inner)).join(',\n')}\n${indent}]`
  }
  const entries = Object.entries(value).filter(([, entry]) => entry !== undefined)
  if (entries.length === 0) return '{}'
  return `{\n${entries.map(([key, entry]) => `${inner}${JSON.stringify(key)}: ${pretty(entry, inner)}`).join(',\n')}\n${indent}}`
}
