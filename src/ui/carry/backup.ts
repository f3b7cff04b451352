import { readKit } from '../../kit'
import { parseText, problemSentence, readSitting } from '../../sitting'
import { keptDraft, putDraft } from '../lesson/draft'
import { readRecords, replaceDesk } from '../storage'

const FORMAT = 'halfshade.backup'
/** Records of the lesson that a teacher writes and of those that it was laid over, which lie apart. */
const DRAFT = 'lesson'
const DRAFTS_BEFORE = 'lessonsBefore'

/** Everything that this device keeps, as the text of one file. */
export async function backupText(now: Date): Promise<string> {
  const { draft, before } = keptDraft()
  const records = {
    ...(await readRecords()),
    ...(draft !== null && { [DRAFT]: draft }),
    ...(before !== null && { [DRAFTS_BEFORE]: before }),
  }
  return `${JSON.stringify({ format: FORMAT, version: 1, madeAt: now.toISOString(), records }, null, 1)}\n`
}

export interface Backup {
  readonly madeAt: string
  /** Of the sitting on the desk; null: there was none. */
  readonly title: string | null
  readonly records: Readonly<Record<string, unknown>>
}

/** A backup from its text; throws with what is wrong with it, before anything is changed. */
export function readBackup(text: string): Backup {
  const parsed = parseText(text, 'S14', 'backup')
  if ('problem' in parsed) throw new Error(problemSentence(parsed.problem))
  const { format, version, madeAt, records } = (parsed.value ?? {}) as Record<string, unknown>
  if (format !== FORMAT) throw new Error(`format: expected "${FORMAT}", got ${JSON.stringify(format) ?? 'nothing'}.`)
  if (version !== 1)
    throw new Error(`version: expected 1, got ${JSON.stringify(version) ?? 'nothing'}: open it with a newer page.`)
  if (records === null || typeof records !== 'object' || Array.isArray(records))
    throw new Error('records: expected a group of records.')
  const kept = records as Record<string, unknown>
  for (const key of ['sitting', 'aside', 'kit', DRAFT, DRAFTS_BEFORE]) requireKind(kept, key, 'string')
  for (const key of ['session', 'thumbs', 'days']) requireKind(kept, key, 'object')
  const { pins } = (kept.session ?? {}) as Record<string, unknown>
  if (pins !== undefined && !Array.isArray(pins)) throw new Error('records.session.pins: expected a list.')
  const days = [
    ...Object.entries((kept.days ?? {}) as Record<string, unknown>).map(([version, day]) => [`days.${version}`, day]),
    ...Object.entries(kept).filter(([key]) => key.startsWith('day.')),
  ]
  for (const [where, day] of days)
    for (const key of ['ticks', 'typed', 'typedIn']) requireKind(day, key, 'object', String(where))
  const sitting = typeof kept.sitting === 'string' ? readSitting(kept.sitting) : null
  if (sitting && 'problems' in sitting) throw new Error(sitting.problems.map(problemSentence).join(' '))
  const kit = typeof kept.kit === 'string' ? readKit(kept.kit) : null
  if (kit && 'problems' in kit) throw new Error(kit.problems.map(problemSentence).join(' '))
  return { madeAt: String(madeAt), title: sitting?.sitting.title ?? null, records: kept }
}

/** Throws where a record is there and of another kind than the page wrote. */
function requireKind(records: unknown, key: string, kind: 'string' | 'object', where = 'records'): void {
  const value = (records as Record<string, unknown> | null)?.[key]
  if (value === undefined && records !== null) return
  if (typeof value !== kind || value === null || Array.isArray(value))
    throw new Error(
      `${where}.${key}: expected ${kind === 'string' ? 'text' : 'a group'}, got ${JSON.stringify(value)?.slice(0, 60) ?? 'nothing'}.`,
    )
}

/** Puts a backup in the place of everything that lies on this device, all or nothing, and loads the page with it. */
export async function restoreBackup({ records }: Backup): Promise<void> {
  const { [DRAFT]: draft, [DRAFTS_BEFORE]: before, ...desk } = records
  const text = (record: unknown) => (typeof record === 'string' ? record : null)
  await replaceDesk(desk)
  putDraft({ draft: text(draft), before: text(before) })
  location.reload()
}
