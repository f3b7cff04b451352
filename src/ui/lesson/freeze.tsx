import type { Cell } from '../contact/contact-desk'
import { Print } from '../contact/print'

interface FreezeProps {
  readonly set: string
  readonly letter: string
  readonly cell: Cell | null
  readonly hasOther: boolean
  onCut(): void
  onClose(): void
}

/** One picture, large, held; the same key cuts to the other one in the same place. */
export function Freeze({ set, letter, cell, hasOther, onCut, onClose }: FreezeProps) {
  return (
    <div className="freeze">
      <p role="status">
        <b>{letter}</b> {set}
      </p>
      <div className="held">
        <Print bitmap={cell?.bitmap ?? null} name={set} />
      </div>
      <p>
        {hasOther && (
          <button type="button" className="word" onClick={onCut}>
            <kbd>F</kbd> cut to {letter === 'A' ? 'B' : 'A'}
          </button>
        )}
        <button type="button" className="word" onClick={onClose}>
          <kbd>Esc</kbd> let go
        </button>
      </p>
    </div>
  )
}
