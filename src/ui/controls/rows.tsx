import { useId, useState } from 'react'
import { beforeGesture, type Sitting } from '../../sitting'
import { FilePick } from '../file-pick'
import { edit, useSession, useStore } from '../store'
import { parseWithin } from '../values'
import { Field } from './field'
import type { ActionRow, ChoiceRow, FoldRow, NumberRow, Row, TextRow } from './model'
import { Slider } from './slider'
import { TextBox } from './text-box'
import { changeTold } from './values-told'

export interface Owner {
  /** The word of the thing, for the names of controls and of steps: 'A', 'sitter'. */
  readonly thing: string
  /** The rows as they stood when the sitting was opened: where a double-click puts them back to. */
  first(id: string): Row | null
}

export function RowView({ row, owner }: { row: Row; owner: Owner }) {
  if (row.kind === 'number') return <NumberView row={row} owner={owner} />
  if (row.kind === 'choice') return <ChoiceView row={row} owner={owner} />
  if (row.kind === 'fold') return <FoldView row={row} owner={owner} />
  if (row.kind === 'text') return <TextView row={row} owner={owner} />
  if (row.kind === 'file')
    return (
      <FilePick word={row.label} named={`${row.label} into ${owner.thing}`} accept={row.accept} onFile={row.open} />
    )
  if (row.kind === 'note') return <p className="row-note">{row.words}</p>
  return <ActionView row={row} />
}

/** Of the row that was changed last: what it had where the change began, so that all of one gesture is told against that. */
let began: { readonly set: Sitting; readonly name: string; readonly value: number } | null = null

function valueIn(set: Sitting, name: string, now: number): number {
  if (began?.set !== set || began.name !== name) began = { set, name, value: now }
  return began.value
}

/** What a number row does when it is moved, typed in or put back; shared by the row and the phone's tape. */
export function useNumberRow(row: NumberRow, owner: Owner) {
  const units = useSession((session) => session.units)
  const shown = row.quantity.format(row.value, units)
  const name = `${owner.thing} ${row.named ?? row.label}`
  // 'A open 1.50 m', not the row's full name; 'camera f/8', not 'camera f f/8'; 'A power 1/8'.
  const stepName = (said: string) =>
    [owner.thing, ...(said.startsWith(row.label) ? [said] : [row.label, said]), row.takesAlong]
      .filter(Boolean)
      .join(' ')
  const set = (value: number, gesture: string | null) => {
    const said = stepName(row.quantity.format(value, units))
    const told = changeTold(
      { ...row, value: valueIn(beforeGesture(useStore.getState().history, gesture), name, row.value) },
      value,
      units,
    )
    edit(
      told === null
        ? said
        : { name: said, inFull: [`${owner.thing} ${told}`, row.takesAlong].filter(Boolean).join(', ') },
      (sitting) => row.change(sitting, value),
      gesture,
    )
  }
  const reset = () => {
    const first = owner.first(row.id)
    if (first?.kind === 'number') set(first.value, null)
  }
  return { name, shown, units, set, reset }
}

function NumberView({ row, owner }: { row: NumberRow; owner: Owner }) {
  const { name, shown, set, reset } = useNumberRow(row, owner)
  return (
    <div className={row.label.length > 9 ? 'row long' : row.typedOnly ? 'row wide' : 'row'}>
      {/* For a hand at the mouse; by key, Delete on the slider does the same. */}
      <span aria-hidden="true" title={row.named} onDoubleClick={reset}>
        {row.label}
      </span>
      {!row.typedOnly && (
        <Slider
          name={name}
          value={row.value}
          range={row.usual}
          step={row.quantity.step}
          said={shown}
          onChange={set}
          onReset={reset}
        />
      )}
      <Field
        name={name}
        shown={shown}
        parse={(text, typedIn) => parseWithin(row.quantity, text, row.range, typedIn, row.value)}
        onValue={(value) => set(value, null)}
      />
    </div>
  )
}

/** Letters that fit beside the row's own word in the narrow column of the desk; longer choices have a line there. */
const LONGEST = 18

function ChoiceView({ row, owner }: { row: ChoiceRow; owner: Owner }) {
  const choose = (value: string) => {
    const label = row.choices.find((entry) => entry.value === value)?.label ?? value
    edit(`${owner.thing} ${row.label}: ${label}`, (sitting) => row.change(sitting, value))
  }
  const spread =
    row.label.length > 9 ? ' long' : row.choices.some(({ label }) => label.length > LONGEST) ? ' tight' : ''
  return (
    <div className={`row wide${spread}`}>
      <span aria-hidden="true" title={row.named}>
        {row.label}
      </span>
      <select
        className="field"
        aria-label={`${owner.thing} ${row.named ?? row.label}`}
        value={row.value}
        onChange={(event) => choose(event.currentTarget.value)}
      >
        {row.choices.map((entry) => (
          <option key={entry.value} value={entry.value}>
            {entry.label}
          </option>
        ))}
      </select>
    </div>
  )
}

function TextView({ row, owner }: { row: TextRow; owner: Owner }) {
  return (
    <div className="row wide">
      <span aria-hidden="true">{row.label}</span>
      <TextBox
        named={`${owner.thing} ${row.label}`}
        value={row.value}
        onValue={(value) => edit(row.step(value), (sitting) => row.change(sitting, value))}
      />
    </div>
  )
}

export function ActionView({ row }: { row: ActionRow }) {
  return (
    <button
      type="button"
      className="word"
      {...(row.pressed === undefined ? {} : { 'aria-pressed': row.pressed })}
      onClick={() => edit(row.step, row.change)}
    >
      {row.label}
    </button>
  )
}

/** A word that opens rows under it, and closes them again; they stay open while the thing is in hand. */
function FoldView({ row, owner }: { row: FoldRow; owner: Owner }) {
  const [open, setOpen] = useState(false)
  const id = useId()
  return (
    <>
      <button
        type="button"
        className="word fold"
        aria-label={`${row.label} of ${owner.thing}`}
        aria-expanded={open}
        aria-controls={open ? id : undefined}
        onClick={() => setOpen(!open)}
      >
        {row.label}
      </button>
      {open && (
        <div id={id}>
          {row.rows.map((entry) => (
            <RowView key={entry.id} row={entry} owner={owner} />
          ))}
        </div>
      )}
    </>
  )
}
