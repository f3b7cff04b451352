import { source } from './binding'
import { BINDINGS } from './bindings'
import { excuseFor, isSurveyData } from './excuses'
import { type CheckValue, type Miss, missesOf } from './judge'

export interface Outcome {
  readonly passed: readonly string[]
  readonly misses: readonly Miss[]
  readonly failed: readonly string[]
  readonly excused: readonly { readonly id: string; readonly reason: string }[]
  /** Neither bound nor excused, or bound to a record that isn't there: both are mistakes of the suite itself. */
  readonly forgotten: readonly string[]
  readonly tables: number
  readonly surveys: number
}

/** Judges every record once. */
export function runTruth(records: readonly CheckValue[]): Outcome {
  const bound = records.filter(({ id }) => id in BINDINGS)
  const misses = bound.flatMap((record) => missesOf(record, BINDINGS[record.id]!, source))
  const wrong = new Set(misses.map(({ id }) => id))
  const rest = records.filter(({ id }) => !(id in BINDINGS))
  const ids = new Set(records.map(({ id }) => id))
  return {
    passed: bound.map(({ id }) => id).filter((id) => !wrong.has(id)),
    misses,
    failed: [...wrong],
    excused: rest.flatMap(({ id }) => {
      const reason = excuseFor(id)
      return reason ? [{ id, reason }] : []
    }),
    forgotten: [
      ...rest.map(({ id }) => id).filter((id) => !excuseFor(id)),
      ...Object.keys(BINDINGS).filter((id) => !ids.has(id)),
    ],
    tables: bound.filter(({ id }) => BINDINGS[id]!.kind === 'table').length,
    surveys: rest.filter(({ id }) => isSurveyData(id)).length,
  }
}
