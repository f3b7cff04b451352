import { MIGRATIONS, type Migration, migrate } from './migrate'
import { type Problem, problemsOfSchema, shown } from './problems'
import { problemsOfRules, problemsOfTakes } from './rules'
import { sittingSchema } from './schema'
import type { Sitting } from './types'

export type ReadResult = { readonly sitting: Sitting } | { readonly problems: readonly Problem[] }

/**
 * A sitting from the text of a file or from a parsed value, raised to the current version. Never throws for what a file
 * holds: either the sitting, or every problem found. Rules: SPEC.md.
 */
export function readSitting(source: unknown, steps: readonly Migration[] = MIGRATIONS): ReadResult {
  const parsed = typeof source === 'string' ? parseText(source) : { value: source }
  if ('problem' in parsed) return { problems: [parsed.problem] }
  const raised = migrate(parsed.value, steps)
  if ('problem' in raised) return { problems: [raised.problem] }
  const problems = checkSitting(raised.document)
  // The schema says what types.ts says (a type test), and gear's tables have judged what a modifier holds.
  return problems.length > 0 ? { problems } : { sitting: sittingSchema.parse(raised.document) as unknown as Sitting }
}

/** Every problem of a value that should be a sitting of the current version; an empty list means none. */
export function checkSitting(value: unknown): readonly Problem[] {
  const result = sittingSchema.safeParse(value)
  if (!result.success) return problemsOfSchema(result.error, value)
  const sitting = result.data as unknown as Sitting
  return [...problemsOfRules(sitting), ...problemsOfTakes(sitting)]
}

/** A sitting has some eight; far more would run a reader out of its stack. */
const MOST_NESTED = 200

/** How deep brackets and braces stand in one another, those within strings left out. */
function nestingOf(text: string): number {
  let [deep, most] = [0, 0]
  let isString = false
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i)
    if (isString) {
      if (c === 92) i++
      else if (c === 34) isString = false
    } else if (c === 34) isString = true
    else if (c === 91 || c === 123) most = Math.max(most, ++deep)
    else if (c === 93 || c === 125) deep--
  }
  return most
}

/** JSON from the text of a file, or where it breaks off; rule: that of the format, what: 'sitting'. */
export function parseText(
  text: string,
  rule: Problem['rule'] = 'S14',
  what = 'sitting',
): { value: unknown } | { problem: Problem } {
  const deep = nestingOf(text)
  if (deep > MOST_NESTED)
    return {
      problem: {
        rule,
        path: '',
        expected: `at most ${MOST_NESTED} lists and groups in one another`,
        got: `${deep}`,
        advice: `Open a ${what} file: this is none.`,
      },
    }
  try {
    // A byte order mark is no part of JSON, but some editors write one.
    return { value: JSON.parse(text.replace(/^\uFEFF/, '')) }
  } catch (error) {
    return {
      problem: {
        rule,
        path: '',
        expected: 'a text in JSON',
        got: `${shown(text.slice(0, 40))} (${error instanceof Error ? error.message : String(error)})`,
        advice: `Open a ${what} file, or mend the text at that place.`,
      },
    }
  }
}
