import { useId, useState } from 'react'
import { type Condition, readingName, withUnit } from '../../lesson'
import { useDerived } from '../derived'

/** Fields of the desk at which a lesson is written. */

interface TextPenProps {
  readonly name: string
  readonly value: string
  readonly long?: boolean
  /** False: refused; what was typed stays to be mended. */
  onText(text: string): boolean
}

/** Free text; it counts once the field is left. */
export function TextPen({ name, value, long = false, onText }: TextPenProps) {
  const [typed, setTyped] = useState<string | null>(null)
  const id = useId()
  const common = {
    id,
    className: 'field',
    value: typed ?? value,
    onBlur: () => {
      if (typed === null || typed === value || onText(typed)) setTyped(null)
    },
  }
  return (
    <div className={long ? 'pen long' : 'pen'}>
      <label htmlFor={id}>{name}</label>
      {long ? (
        <textarea rows={3} {...common} onChange={(event) => setTyped(event.currentTarget.value)} />
      ) : (
        <input
          {...common}
          onKeyDown={(event) => event.key === 'Enter' && common.onBlur()}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
      )}
    </div>
  )
}

interface NumberPenProps {
  readonly name: string
  readonly value: number | undefined
  /** Left empty: undefined. */
  onNumber(value: number | undefined): boolean
}

export function NumberPen({ name, value, onNumber }: NumberPenProps) {
  return (
    <TextPen
      name={name}
      value={value === undefined ? '' : String(value)}
      onText={(text) => {
        const figure = Number(text.replace('−', '-').replace(',', '.'))
        if (text.trim() === '') return onNumber(undefined)
        return Number.isFinite(figure) && onNumber(figure)
      }}
    />
  )
}

interface ChoicePenProps {
  readonly name: string
  readonly value: string
  readonly options: readonly (readonly [value: string, words: string])[]
  onChoice(value: string): void
}

export function ChoicePen({ name, value, options, onChoice }: ChoicePenProps) {
  const all = options.some(([option]) => option === value) ? options : [[value, value] as const, ...options]
  return (
    <label className="pen">
      <span>{name}</span>
      <select className="field" value={value} onChange={(event) => onChoice(event.currentTarget.value)}>
        {all.map(([option, words]) => (
          <option key={option} value={option}>
            {words}
          </option>
        ))}
      </select>
    </label>
  )
}

/** Some of a list, in its order. */
export function SomePen({
  name,
  all,
  chosen,
  wordsOf = (each) => each,
  onSome,
}: {
  name: string
  all: readonly string[]
  chosen: readonly string[]
  wordsOf?(each: string): string
  onSome(some: readonly string[]): void
}) {
  return (
    <fieldset className="some">
      <legend>{name}</legend>
      {all.map((each) => (
        <label key={each}>
          <input
            type="checkbox"
            checked={chosen.includes(each)}
            onChange={() => onSome(all.filter((other) => (other === each) !== chosen.includes(other)))}
          />{' '}
          {wordsOf(each)}
        </label>
      ))}
    </fieldset>
  )
}

/** Readings of the set on the working surface, as they are now. */
export function useReadingOptions(): readonly (readonly [string, string])[] {
  const readings = useDerived((derived) => derived.read?.readings) ?? []
  return readings.map(
    (reading) => [reading.id, `${readingName(reading)}: ${withUnit(reading.text, reading.unit)}`] as const,
  )
}

export const named = (names: readonly string[]): readonly (readonly [string, string])[] =>
  names.map((name) => [name, name] as const)

interface ConditionPenProps {
  readonly condition: Condition
  /** States it may be asked of; null: it is asked of the learner's own set. */
  readonly sets: readonly string[] | null
  onCondition(condition: Condition): boolean
}

/** 'reading, from, to' or 'is'. */
export function ConditionPen({ condition, sets, onCondition }: ConditionPenProps) {
  const readings = useReadingOptions()
  const change = (part: Partial<Condition>) =>
    onCondition(
      Object.fromEntries(
        Object.entries({ ...condition, ...part }).filter(([, value]) => value !== undefined),
      ) as unknown as Condition,
    )
  return (
    <div className="pens">
      {sets ? (
        <ChoicePen name="of" value={condition.set ?? ''} options={named(sets)} onChoice={(set) => change({ set })} />
      ) : (
        <TextPen name="called" value={condition.says ?? ''} onText={(says) => change({ says })} />
      )}
      <ChoicePen
        name="reading"
        value={condition.reading}
        options={readings}
        onChoice={(reading) => change({ reading })}
      />
      <NumberPen name="at least" value={condition.from} onNumber={(from) => change({ from })} />
      <NumberPen name="at most" value={condition.to} onNumber={(to) => change({ to })} />
      <TextPen
        name="or the word"
        value={condition.is?.join(', ') ?? ''}
        onText={(text) => change({ is: text.trim() === '' ? undefined : text.split(',').map((word) => word.trim()) })}
      />
    </div>
  )
}

/** The word that takes one of a list away. */
export const Remove = ({ what, onRemove }: { what: string; onRemove: () => void }) => (
  <button type="button" className="word under" aria-label={`remove ${what}`} onClick={onRemove}>
    remove
  </button>
)
