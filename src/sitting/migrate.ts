import { type Problem, shown } from './problems'

export const FORMAT = 'halfshade.sitting'
export const CURRENT_VERSION = 1

/** A format of ours, and the numbers of its rules. */
export interface FileKind {
  readonly format: string
  /** 'sitting'. */
  readonly what: string
  readonly rules: { readonly format: Problem['rule']; readonly newer: Problem['rule'] }
}

const SITTING: FileKind = { format: FORMAT, what: 'sitting', rules: { format: 'S1', newer: 'S12' } }

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
  kind: FileKind = SITTING,
): { readonly document: Raw } | { readonly problem: Problem } {
  requireLadder(steps)
  const newest = steps.length + 1
  const wrong = (path: string, expected: string, got: unknown) => ({ problem: notOfKind(kind, path, expected, got) })
  if (!isRecord(value)) return wrong('', `a ${kind.what} in braces { }`, value)
  if (value.format !== kind.format) return wrong('format', `"${kind.format}"`, value.format)
  const version = value.version
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
    return wrong('version', `a whole number from 1 to ${newest}`, version)
  if (version > newest)
    return {
      problem: {
        rule: kind.rules.newer,
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

const notOfKind = ({ what, rules }: FileKind, path: string, expected: string, got: unknown): Problem => ({
  rule: rules.format,
  path,
  expected,
  got: shown(got),
  advice: `Open a file that was saved as a ${what} (*.${what}.json).`,
})
