import type { z } from 'zod'

/** One thing that is wrong with a document, told so that it can be put right. */
export interface Problem {
  /** Number of the rule in SPEC.md of the sitting (S), of the kit (K) or of the lesson (L). */
  readonly rule: `${'S' | 'K' | 'L'}${number}`
  /** 'sources[1].head.energyJ'; '' for the whole document. */
  readonly path: string
  /** With the unit. */
  readonly expected: string
  readonly got: string
  /** What to do about it. */
  readonly advice: string
}

const DOCUMENTS = { S: 'sitting', K: 'kit', L: 'lesson' } as const

/** 'sources[1].head.energyJ: expected a number from 1 to 6400 J, got -3. Change it to a number in that range.' */
export const problemSentence = (problem: Problem): string =>
  `${problem.path || DOCUMENTS[problem.rule[0] as keyof typeof DOCUMENTS]}: expected ${problem.expected}, got ${problem.got}. ${problem.advice}`

/** An edit that cannot be carried out as asked. The sitting is unchanged; `problem` says why. */
export class EditRefused extends Error {
  readonly problem: Problem
  constructor(problem: Problem) {
    super(problemSentence(problem))
    this.name = 'EditRefused'
    this.problem = problem
  }
}

const pathText = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : text ? `${text}.${String(key)}` : String(key)),
    '',
  )

/** A value as the message shows it: short, and telling text from number. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing'
  const json = JSON.stringify(value) ?? String(value)
  return json.length > 60 ? `${json.slice(0, 57)}…` : json
}

const valueAt = (root: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (value, key) =>
      value !== null && typeof value === 'object' ? (value as Record<PropertyKey, unknown>)[key] : undefined,
    root,
  )

function adviceFor(issue: z.core.$ZodIssue, value: unknown): string {
  if (value === undefined) return 'Add this field.'
  if (issue.code === 'too_small' || issue.code === 'too_big') return 'Change it to a value in that range.'
  if (issue.code === 'invalid_value') return 'Write one of these, without other characters.'
  return 'Replace it with what is expected.'
}

const expectedOf = (issue: z.core.$ZodIssue): string =>
  issue.code === 'invalid_type' && issue.expected === 'object' ? 'a record in braces { }' : issue.message

/** What zod found, in our words. */
export const problemsOfSchema = (error: z.core.$ZodError, root: unknown, rule: Problem['rule'] = 'S2'): Problem[] =>
  error.issues.map((issue) => {
    const value = valueAt(root, issue.path)
    return {
      rule,
      path: pathText(issue.path),
      expected: expectedOf(issue),
      got: shown(value),
      advice: adviceFor(issue, value),
    }
  })
