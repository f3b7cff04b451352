import { type KeyboardEvent, useId, useState } from 'react'
import { setNote, setTitle } from '../sitting'
import { Opens } from './controls/opens'
import { edit, useSittingPart } from './store'

/** The sitting's title in the bar; under it, title and note are written. */
export function Naming() {
  const title = useSittingPart((sitting) => sitting.title)
  const note = useSittingPart((sitting) => sitting.note)
  const word = title.trim() || 'untitled'
  return (
    <Opens word={word} named={`${word}: title and note of this sitting`} className="title">
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
  /** Of several lines, in which Enter begins the next one. */
  readonly long?: boolean
  onValue(value: string): void
}

/** A box of free words. Enter (of a long one: with Control or Command) or leaving it takes them; Escape puts the old ones back. */
function Words({ label, value, long = false, onValue }: WordsProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const accept = () => {
    setTyped(null)
    if (typed !== null && typed !== value) onValue(typed)
  }
  const id = useId()
  const box = {
    id,
    className: 'field',
    value: typed ?? value,
    onChange: (event: { currentTarget: { value: string } }) => setTyped(event.currentTarget.value),
    onBlur: accept,
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === 'Enter' && (!long || event.ctrlKey || event.metaKey)) accept()
      if (event.key !== 'Escape' || typed === null) return
      event.stopPropagation()
      setTyped(null)
    },
  }
  return (
    <div>
      <label htmlFor={id}>{label}</label>
      {long ? <textarea rows={5} {...box} /> : <input autoComplete="off" {...box} />}
    </div>
  )
}
