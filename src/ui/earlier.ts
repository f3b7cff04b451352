import { type History, resumeHistory } from '../sitting'

/** A document that another one was laid over, as the device keeps it. */
export interface Earlier {
  /** Of the step that laid the other one over it. */
  readonly name: string
  readonly text: string
}

/** So many are kept: looking through all that is shipped pushes nobody's own work out. */
const MOST = 12

/** What lies under the present document, the oldest first, each once. */
export const earlierOf = <T>({ past }: History<T>, textOf: (document: T) => string): readonly Earlier[] =>
  withMore(
    [],
    past.flatMap(({ name, state, opens }) => (opens ? [{ name, text: textOf(state) }] : [])),
  )

/** Such a list with later ones, each once. */
export const withMore = (earlier: readonly Earlier[], later: readonly Earlier[]): readonly Earlier[] =>
  eachOnce([...earlier, ...later]).slice(-MOST)

const eachOnce = (all: readonly Earlier[]): readonly Earlier[] =>
  all.filter(({ text }, i) => all.findLastIndex((other) => other.text === text) === i)

/** A record of the device, whatever it holds, as such a list. */
export function readEarlier(record: unknown): readonly Earlier[] {
  const isOne = (one: unknown): one is Earlier => {
    const { name, text } = (one ?? {}) as Partial<Earlier>
    return typeof name === 'string' && typeof text === 'string'
  }
  return Array.isArray(record) ? record.filter(isOne) : []
}

/** A document with what lay under it as steps that undo takes back; what cannot be read any more is left out. */
export function resumed<T>(
  present: T,
  presentText: string,
  earlier: readonly Earlier[],
  read: (text: string) => T | null,
): History<T> {
  const steps = eachOnce(earlier).flatMap(({ name, text }) => {
    const state = text === presentText ? null : read(text)
    return state === null ? [] : [{ name, state }]
  })
  return resumeHistory(steps, present)
}
