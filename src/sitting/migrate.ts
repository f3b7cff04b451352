import { type Problem, shown } from './problems'

export const FORMAT = 'halfshade.sitting'
export const CURRENT_VERSION = 1

type Raw = Readonly<Record<string, unknown>>

/** One step upward. A released step is never edited; a new one follows it. */
export interface Migration {
  /** The version that the step makes from version `to − 1`. */
  readonly to: number
  /** What changed, in a few words. */
  readonly name: string
  up(document: Raw): Raw
}

/** Ordered and without gaps: the step at position i makes version i + 2. Version 1 is the first, so there is none yet. */
export const MIGRATIONS: readonly Migration[] = []

const isRecord = (value: unknown): value is Raw => value !== null && typeof value === 'object' && !Array.isArray(value)

/** The document at the newest version that the steps reach (S1, S12). The argument is left as it was. */
export function migrate(
  value: unknown,
  steps: readonly Migration[] = MIGRATIONS,
): { readonly document: Raw } | { readonly problem: Problem } {
  requireLadder(steps)
  const newest = steps.length + 1
  if (!isRecord(value)) return { problem: notASitting('', 'a sitting in braces { }', value) }
  if (value.format !== FORMAT) return { problem: notASitting('format', `"${FORMAT}"`, value.format) }
  const version = value.version
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return { problem: notASitting('version', `a whole number from 1 to ${newest}`, version) }
  if (version > newest)
    return {
      problem: {
        rule: 'S12',
        path: 'version',
        expected: `1 to ${newest}, the versions known here`,
        got: shown(version),
        advice: 'The file was written by a newer Halfshade: open it there, or update this one.',
      },
    }
  return { document: raise(value, version, steps) }
}

function raise(document: Raw, version: number, steps: readonly Migration[]): Raw {
  const due = steps.slice(version - 1)
  const raised = due.reduce((state, step) => ({ ...step.up(state), version: step.to }), document)
  // Takes are sittings of the same version as the document that keeps them.
  if (due.length === 0 || !Array.isArray(raised.takes)) return raised
  const takes = raised.takes.map((take: unknown) =>
    isRecord(take) && isRecord(take.sitting) ? { ...take, sitting: raise(take.sitting, version, steps) } : take,
  )
  return { ...raised, takes }
}

function requireLadder(steps: readonly Migration[]): void {
  steps.forEach((step, i) => {
    if (step.to !== i + 2)
      throw new Error(
        `sitting.migrate: step "${step.name}" makes version ${step.to}, its place in the list asks for ${i + 2}`,
      )
  })
}

const notASitting = (path: string, expected: string, got: unknown): Problem => ({
  rule: 'S1',
  path,
  expected,
  got: shown(got),
  advice: 'Open a file that was saved as a sitting (*.sitting.json).',
})
