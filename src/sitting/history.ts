/**
 * Undo and redo as a plain value. A step has a name for the menu ("move A"); all changes of one gesture (a drag, a
 * held key) are one step.
 */
export interface History<T> {
  readonly past: readonly Step<T>[]
  readonly present: T
  /** Nearest first. */
  readonly future: readonly Step<T>[]
}

export interface Step<T> {
  readonly name: string
  /** The same in full, from what to what: 'A tape: 1.00 m to 0.60 m'; left out: its name says it all. */
  readonly inFull?: string
  /** What was on the table before the step (in `past`) or will be after it (in `future`). */
  readonly state: T
  readonly gesture: string | null
  /** Another document was laid over `state`, which may be work of its own. */
  readonly opens?: true
}

/** How a step is told. */
export type StepWords = Pick<Step<unknown>, 'name' | 'inFull'>

/** Steps kept. A sitting shares most of its records with the one before, so a step costs little. */
const HISTORY_LIMIT = 500

export const startHistory = <T>(present: T): History<T> => ({ past: [], present, future: [] })

/**
 * The history after a change. Changes with the same gesture id, one after the other, make one step: undo goes back to
 * before the first of them, and the step has the last one's name. A change that changes nothing makes no step.
 */
export function recordStep<T>(
  history: History<T>,
  name: string,
  next: T,
  gesture: string | null = null,
  inFull: string = name,
): History<T> {
  if (next === history.present) return history
  const last = history.past.at(-1)
  const words = inFull === name ? { name } : { name, inFull }
  if (gesture !== null && last?.gesture === gesture)
    return {
      past: [...history.past.slice(0, -1), { ...words, state: last.state, gesture }],
      present: next,
      future: [],
    }
  const past = [...history.past, { ...words, state: history.present, gesture }]
  return { past: past.slice(-HISTORY_LIMIT), present: next, future: [] }
}

/** What a change is told against: what is there, or what was where the gesture began that the change goes on with. */
export function beforeGesture<T>({ past, present }: History<T>, gesture: string | null): T {
  const last = past.at(-1)
  return gesture !== null && last?.gesture === gesture ? last.state : present
}

/** The history after another document took the place of the present one. */
export function recordOpening<T>(history: History<T>, name: string, next: T): History<T> {
  const { past, ...rest } = recordStep(history, name, next)
  if (rest.present === history.present) return history
  return { ...rest, past: [...past.slice(0, -1), { ...past.at(-1)!, opens: true }] }
}

/** The history of a document that lay over others before this visit, the oldest first: undo gives them back. */
export const resumeHistory = <T>(over: readonly Pick<Step<T>, 'name' | 'state'>[], present: T): History<T> => ({
  past: over.map(({ name, state }) => ({ name, state, gesture: null, opens: true })),
  present,
  future: [],
})

/** One step back; the history itself where there is none. */
export function undo<T>(history: History<T>): History<T> {
  const step = history.past.at(-1)
  if (!step) return history
  return {
    past: history.past.slice(0, -1),
    present: step.state,
    future: [{ ...step, state: history.present }, ...history.future],
  }
}

/** One step forward again; the history itself where there is none. A redone gesture is closed: no drag joins it. */
export function redo<T>(history: History<T>): History<T> {
  const [step, ...future] = history.future
  if (!step) return history
  return { past: [...history.past, { ...step, state: history.present, gesture: null }], present: step.state, future }
}

/** The history at another of its places: 0 is before the first step that is kept, then one a step. Throws where there is no such place. */
export function goTo<T>(history: History<T>, place: number): History<T> {
  const last = history.past.length + history.future.length
  if (!(Number.isInteger(place) && place >= 0 && place <= last))
    throw new Error(`sitting.goTo: expected a place from 0 to ${last}, got ${place}`)
  let now = history
  while (now.past.length > place) now = undo(now)
  while (now.past.length < place) now = redo(now)
  return now
}

/** What undo and redo would take back or bring back; null: nothing. */
export const undoName = <T>(history: History<T>): string | null => history.past.at(-1)?.name ?? null
export const redoName = <T>(history: History<T>): string | null => history.future[0]?.name ?? null
/** The same in full. */
export const undoInFull = <T>({ past }: History<T>): string | null => fullName(past.at(-1))
export const redoInFull = <T>({ future }: History<T>): string | null => fullName(future[0])

const fullName = (step: StepWords | undefined): string | null => step?.inFull ?? step?.name ?? null
