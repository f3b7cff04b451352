import { type KeyboardEvent, useId, useState } from 'react'
import { useSession } from '../store'
import type { LengthUnits, Parsed } from '../values'

interface FieldProps {
  readonly name: string
  readonly shown: string
  parse(text: string, units: LengthUnits): Parsed
  onValue(value: number): void
}

/**
 * A box to type a number with its unit. What can't be read stays in the box with a sentence under it, and the sitting
 * stays as it was; Escape puts the old value back. A bare number counts in the unit that the page had when it was typed.
 */
export function Field({ name, shown, parse, onValue }: FieldProps) {
  const units = useSession((session) => session.units)
  const [typed, setTyped] = useState<{ readonly text: string; readonly units: LengthUnits } | null>(null)
  const [fault, setFault] = useState<string | null>(null)
  const faultId = useId()
  const close = () => {
    setTyped(null)
    setFault(null)
  }
  const accept = () => {
    if (typed === null || typed.text === shown) return close()
    const parsed = parse(typed.text, typed.units)
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
        value={typed?.text ?? shown}
        onFocus={(event) => event.currentTarget.select()}
        onChange={(event) => setTyped({ text: event.currentTarget.value, units })}
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
