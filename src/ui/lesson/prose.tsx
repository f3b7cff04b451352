import { type Answer, followsLight, piecesOf, quantitiesOf } from '../../lesson'
import type { States } from './use-states'

/** Where a number will stand. */
export function Blank({ why }: { why: string }) {
  return <span className="blank" role="img" aria-label={why} />
}

/** A question's own numbers are what is given: they hide with no state. */
export const NOTHING: readonly string[] = []
export const HIDDEN = 'hidden until the prediction is in'
export const UNREAD = 'not read yet'

/** A number of which more of the light is still read. */
export const Unsettled = () => (
  <span className="unsettled">
    <span aria-hidden="true">≈ </span>
    <span className="unseen">not settled yet: </span>
  </span>
)

/** Whether a reading of a state may still move: its light is not read to the end. */
export function isUnsettled({ readingsOf, settledOf }: Readable, set: string, id: string): boolean {
  const found = readingsOf(set)?.find((reading) => reading.id === id)
  return found !== undefined && followsLight(found) && !settledOf(set)
}

/**
 * Whether an answer can be judged for good: all of its light is read, or all that it is judged by are lengths and angles, which are there
 * at once.
 */
export const isJudgeable = (answer: Answer, states: Pick<States, 'readingsOf' | 'settled'>): boolean =>
  states.settled ||
  quantitiesOf(answer).every(({ set, minus = set, reading: id }) =>
    [set, minus].every((name) => {
      const found = name === undefined ? undefined : states.readingsOf(name)?.find((reading) => reading.id === id)
      return typeof found?.value === 'number' && !followsLight(found)
    }),
  )

type Readable = Pick<States, 'readingsOf' | 'settledOf'>

interface ProseProps {
  readonly text: string
  readonly hidden: readonly string[]
  readonly states: Readable
}

/** Prose with the program's numbers in it. */
export function Prose({ text, hidden, states }: ProseProps) {
  return piecesOf(text, states.readingsOf, hidden).map((piece, i) => {
    // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of a text stand where they stand
    if (piece.kind === 'words') return <span key={i}>{piece.text}</span>
    const why = piece.sets.some((set) => hidden.includes(set)) ? HIDDEN : UNREAD
    const moves = piece.sets.some((set) => isUnsettled(states, set, piece.reading))
    // A number that light has not brought yet is not one that there is not.
    const text = moves && piece.text === '–' ? null : piece.text
    return (
      // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of a text stand where they stand
      <span key={i} className="number">
        {text !== null && moves && <Unsettled />}
        {text ?? <Blank why={why} />}
      </span>
    )
  })
}
