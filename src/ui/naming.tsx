import { useId } from 'react'
import { setNote, setTitle } from '../sitting'
import { Opens } from './controls/opens'
import { TextBox } from './controls/text-box'
import { edit, useSittingPart } from './store'

/** The sitting's title in the bar; under it, title and note are written. */
export function Naming() {
  const title = useSittingPart((sitting) => sitting.title)
  const note = useSittingPart((sitting) => sitting.note)
  const word = title.trim() || 'untitled'
  return (
    <Opens word={word} named={`${word}: title and note of this sitting`} title={word} className="title">
      {() => (
        <div className="naming">
          <Words
            label="title"
            value={title}
            onValue={(next) => edit(titleStep(next), (sitting) => setTitle(sitting, next))}
          />
          <Words
            label="note"
            value={note}
            long
            onValue={(next) => edit(noteStep(note, next), (sitting) => setNote(sitting, next))}
          />
        </div>
      )}
    </Opens>
  )
}

const titleStep = (title: string): string => (title.trim() ? `titled ${title.trim()}` : 'title taken out')

function noteStep(before: string, after: string): string {
  if (!after.trim()) return 'note taken out'
  return before.trim() ? 'note changed' : 'note written'
}

interface WordsProps {
  readonly label: string
  readonly value: string
  readonly long?: boolean
  onValue(value: string): void
}

function Words({ label, ...box }: WordsProps) {
  const id = useId()
  return (
    <div>
      <label htmlFor={id}>{label}</label>
      <TextBox id={id} {...box} />
    </div>
  )
}
