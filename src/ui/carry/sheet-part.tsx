import { useState } from 'react'
import type { PaperSize } from '../../print'
import { Part, useTold } from './part'
import { giveSheet, useSheetInput } from './printed'

/** The set-up sheet as files. */
export function SheetPart() {
  const [paper, setPaper] = useState<PaperSize>('a4')
  const input = useSheetInput()
  const [told, doing] = useTold()
  const give = (kind: 'pdf' | 'html') => () => {
    if (input) doing('Writing the sheet.', () => giveSheet(input, paper, kind))
  }
  return (
    <Part
      title="Set-up sheet"
      says="Plan and elevation to scale, every foot by tape, settings, meter table, order of work, packing list: black on white."
    >
      <div className="row">
        {(['a4', 'letter'] as const).map((size) => (
          <button
            key={size}
            type="button"
            className="word"
            aria-pressed={paper === size}
            onClick={() => setPaper(size)}
          >
            {size === 'a4' ? 'A4' : 'Letter'}
          </button>
        ))}
      </div>
      <div className="row">
        <button type="button" className="word under" disabled={!input} onClick={give('pdf')}>
          PDF file, to print
        </button>
        <button type="button" className="word under" disabled={!input} onClick={give('html')}>
          one HTML file for a phone
        </button>
      </div>
      <p role="status">{input ? told : 'The readings are still settling.'}</p>
    </Part>
  )
}
