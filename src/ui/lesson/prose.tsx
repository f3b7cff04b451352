import { piecesOf } from '../../lesson'
import type { Reading } from '../../readings'

/** A ruled blank where a number will stand. */
export function Blank({ why }: { why: string }) {
  return <span className="blank" role="img" aria-label={why} />
}

/** A question's own numbers are what is given: they hide with no state. */
export const NOTHING: readonly string[] = []
export const HIDDEN = 'hidden until the prediction is in'
export const UNREAD = 'not read yet'

interface ProseProps {
  readonly text: string
  readonly hidden: readonly string[]
  readingsOf(set: string): readonly Reading[] | null
}

/** Prose with the program's numbers in it. */
export function Prose({ text, hidden, readingsOf }: ProseProps) {
  return piecesOf(text, readingsOf, hidden).map((piece, i) => {
    // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of a text stand where they stand
    if (piece.kind === 'words') return <span key={i}>{piece.text}</span>
    const why = piece.sets.some((set) => hidden.includes(set)) ? HIDDEN : UNREAD
    return (
      // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of a text stand where they stand
      <span key={i} className="number">
        {piece.text ?? <Blank why={why} />}
      </span>
    )
  })
}
