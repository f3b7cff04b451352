import { type KeyboardEvent, useState } from 'react'

interface TextBoxProps {
  /** For a label elsewhere; else `named` is its name. */
  readonly id?: string
  readonly named?: string
  readonly value: string
  /** Of several lines, in which Enter begins the next one. */
  readonly long?: boolean
  onValue(value: string): void
}

/** A box of free words. Enter (of a long one: with Control or Command) or leaving it takes them; Escape puts the old ones back. */
export function TextBox({ id, named, value, long = false, onValue }: TextBoxProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const accept = () => {
    setTyped(null)
    if (typed !== null && typed !== value) onValue(typed)
  }
  const box = {
    id,
    'aria-label': named,
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
  return long ? <textarea rows={5} {...box} /> : <input autoComplete="off" {...box} />
}
