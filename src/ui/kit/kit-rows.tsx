import { type ReactNode, useId, useState } from 'react'
import { Field } from '../controls/field'
import { TextBox } from '../controls/text-box'
import { useSession } from '../store'
import { type LengthUnits, type Parsed, parseWithin, type Quantity } from '../values'

/** Rows of one entry of the kit: its name says whose they are. */
interface RowProps {
  readonly of: string
  readonly label: string
}

interface NumberProps extends RowProps {
  readonly quantity: Quantity
  readonly range: readonly [number, number]
  readonly value: number
  onValue(value: number): void
}

export function KitNumber({ of, label, quantity, range, value, onValue }: NumberProps) {
  const units = useSession((session) => session.units)
  return (
    <Line label={label}>
      <Field
        name={`${of} ${label}`}
        shown={quantity.format(value, units)}
        parse={(text, typedIn) => parseWithin(quantity, text, range, typedIn)}
        onValue={onValue}
      />
    </Line>
  )
}

const UNKNOWN = 'not known'

/** A number that may be left out: emptied, it is not known. */
export function KitOptional({
  value,
  onValue,
  unknown = UNKNOWN,
  ...row
}: Omit<NumberProps, 'value' | 'onValue'> & {
  readonly value: number | undefined
  readonly unknown?: string
  onValue(value: number | undefined): void
}) {
  const units = useSession((session) => session.units)
  const parse = (text: string, typedIn: LengthUnits): Parsed =>
    ['', unknown].includes(text.trim())
      ? { ok: true, value: Number.NaN }
      : parseWithin(row.quantity, text, row.range, typedIn)
  return (
    <Line label={row.label}>
      <Field
        name={`${row.of} ${row.label}`}
        shown={value === undefined ? unknown : row.quantity.format(value, units)}
        parse={parse}
        onValue={(typed) => onValue(Number.isNaN(typed) ? undefined : typed)}
      />
    </Line>
  )
}

export function KitChoice({
  of,
  label,
  value,
  choices,
  onValue,
}: RowProps & {
  readonly value: string
  readonly choices: readonly { readonly value: string; readonly label: string }[]
  onValue(value: string): void
}) {
  return (
    <Line label={label}>
      <select
        className="field"
        aria-label={`${of} ${label}`}
        value={value}
        onChange={(event) => onValue(event.currentTarget.value)}
      >
        {choices.map((entry) => (
          <option key={entry.value} value={entry.value}>
            {entry.label}
          </option>
        ))}
      </select>
    </Line>
  )
}

export function KitName({ of, value, onValue }: { of: string; value: string; onValue(value: string): void }) {
  return (
    <Line label="name">
      <TextBox named={`${of} name`} value={value} onValue={(typed) => onValue(typed.trim())} />
    </Line>
  )
}

const Line = ({ label, children }: { label: string; children: ReactNode }) => (
  <div className="row wide">
    <span aria-hidden="true">{label}</span>
    {children}
  </div>
)

/** An entry by its name, which opens its rows. */
export function Entry({ name, children }: { name: string; children: ReactNode }) {
  const [open, setOpen] = useState(false)
  const id = useId()
  return (
    <>
      <button
        type="button"
        className="word fold"
        aria-expanded={open}
        aria-controls={open ? id : undefined}
        onClick={() => setOpen(!open)}
      >
        {name}
      </button>
      {open && <div id={id}>{children}</div>}
    </>
  )
}

export const KitWord = ({ word, named, press }: { word: string; named?: string; press(): void }) => (
  <button type="button" className="word" aria-label={named} onClick={press}>
    {word}
  </button>
)
