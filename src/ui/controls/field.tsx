import { type KeyboardEvent, useId, useState } from 'react'
import type { Parsed } from '../values'

interface FieldProps {
  readonly name: string
  readonly shown: string
  parse(text: string): Parsed
  onValue(value: number): void
}

/**
 * A box to type a number with its unit. What can't be read stays in the box with a sentence under it, and the sitting
 * stays as it was; Escape puts the old value back.
 */
export function Field({ name, shown, parse, onValue }: FieldProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const faultId = useId()
  const close = () => {
    setTyped(null)
    setFault(null)
  }
  const accept = () => {
    if (typed === null || typed === shown) return close()
    const parsed = parse(typed)
    if (!parsed.ok) return setFault(parsed.message)
    close()
    onValue(parsed.value)
  }
  const keyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') accept()
    if (event.key === 'Escape') close()
  }
  return (
    <>
      <input
        className="field"
        aria-label={`${name}, typed`}
        aria-invalid={fault !== null}
        aria-describedby={fault ? faultId : undefined}
        autoComplete="off"
        spellCheck={false}
        value={typed ?? shown}
        onFocus={(event) => event.currentTarget.select()}
        onChange={(event) => setTyped(event.currentTarget.value)}
        onKeyDown={keyDown}
        onBlur={accept}
      />
      {fault && (
        <p className="fault" id={faultId} role="alert">
          {name}: {fault}.
        </p>
      )}
    </>
  )
}
