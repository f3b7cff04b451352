import { type FormEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react'
import { type Answer, type Graded, grade, type Question, reasonOf } from '../../lesson'
import { held } from '../held'
import { AngleDial } from './angle-dial'
import { type Asked, setLesson, useLesson } from './lesson-store'
import { isJudgeable, NOTHING, Prose } from './prose'
import { unitOf } from './step-words'
import type { States } from './use-states'

interface QuestionProps {
  readonly asked: Asked
  /** Its text stands with it; else it is the step's, which stands above. */
  readonly ownText: boolean
  readonly place: { readonly at: number; readonly of: number }
  readonly states: States
  /** The way on once the answer is in: its words, and where it leads; null: there is none. */
  readonly next: Next | null
}
export interface Next {
  readonly words: string
  go(): void
}

/** A question: the learner commits to an answer; then it is graded, and what it hid is shown. */
export function QuestionView({ asked: { key, question }, ownText, place, states, next }: QuestionProps) {
  const given = useLesson((state) => state.given[key])
  const [pending, setPending] = useState<number | null>(null)
  const { answer, text, hides } = question
  const locked = given !== undefined
  const lock = () => {
    if (pending === null || locked) return
    const { given: all } = useLesson.getState()
    setLesson({ given: { ...all, [key]: pending } })
  }
  const form = useRef<HTMLFormElement>(null)
  const choose = (i: number) => {
    setPending(i)
    // A word that has the focus would take the Enter that is to lock the answer.
    if (document.activeElement instanceof HTMLButtonElement)
      form.current?.querySelectorAll<HTMLInputElement>('[name=prediction]')[i]?.focus()
  }
  useFigureKeys(answer, locked, choose, lock, () => form.current?.querySelector<HTMLInputElement>('.field')?.focus())
  // The way on comes with what is said of the answer, so that nobody passes that by.
  const isSaid = locked && isJudgeable(answer, states)
  const wasLocked = useRef(locked)
  const wasSaid = useRef(isSaid)
  // What was typed or chosen in takes no keys any more: Enter goes on from here.
  useEffect(() => {
    if (locked && !wasLocked.current) form.current?.focus()
    if (isSaid && !wasSaid.current && document.activeElement === form.current)
      form.current?.querySelector<HTMLElement>('.next')?.focus()
    wasLocked.current = locked
    wasSaid.current = isSaid
  }, [locked, isSaid])
  const submit = (event: FormEvent) => {
    event.preventDefault()
    lock()
  }
  const hidden = locked ? [] : hides
  return (
    <form className="question" ref={form} tabIndex={-1} onSubmit={submit}>
      {ownText && (
        <p className="asks">
          {place.of > 1 && <span className="n">{`${place.at + 1} of ${place.of}`}</span>}{' '}
          <Prose text={text} hidden={NOTHING} states={states} />
        </p>
      )}
      <Widget
        answer={answer}
        value={given ?? pending}
        locked={locked}
        hidden={hidden}
        states={states}
        onValue={setPending}
      />
      {!locked && (
        <button type="submit" className="word under lock" disabled={pending === null}>
          lock and show
        </button>
      )}
      {locked && <Verdict question={question} given={given} states={states} isLast={ownText} />}
      {isSaid && next && (
        <button type="button" className="word under lock next" onKeyDown={onePress} onClick={next.go}>
          {next.words}
        </button>
      )}
    </form>
  )
}

/** The Enter that locked an answer, held down, does not also go on. */
export const onePress = (event: KeyboardEvent) => {
  if (event.key === 'Enter' && event.repeat) event.preventDefault()
}

/** Figures choose, or go into the field, wherever the focus is, and Enter locks; not while somebody types or stands on a word. */
function useFigureKeys(
  answer: Answer,
  locked: boolean,
  choose: (i: number) => void,
  lock: () => void,
  toField: () => void,
): void {
  useEffect(() => {
    if (locked) return
    const keys = (event: globalThis.KeyboardEvent) => {
      const { target, key } = event
      const typing = target instanceof HTMLInputElement && target.type !== 'radio'
      if (typing) return
      const figure = Number(key) - 1
      if (answer.kind === 'choice' && answer.choices[figure]) choose(figure)
      else if (answer.kind === 'number' && /^[-−+\d]$/.test(key)) toField()
      else if (key === 'Enter' && !(target instanceof HTMLButtonElement) && !(target instanceof HTMLInputElement)) {
        // Or it would press the way on too, which has the focus by then.
        event.preventDefault()
        lock()
      }
    }
    window.addEventListener('keydown', keys)
    return () => window.removeEventListener('keydown', keys)
  })
}

interface WidgetProps {
  readonly answer: Answer
  readonly value: number | null
  readonly locked: boolean
  readonly hidden: readonly string[]
  readonly states: States
  onValue(value: number | null): void
}

function Widget({ answer, value, locked, hidden, states, onValue }: WidgetProps) {
  if (answer.kind === 'angle') return <AngleDial plane={answer.plane} value={value} locked={locked} onValue={onValue} />
  if (answer.kind === 'number')
    return <NumberBox unit={unitOf(answer.of, states)} value={value} locked={locked} onValue={onValue} />
  return (
    <fieldset className="choices" disabled={locked}>
      <legend className="unseen">Your prediction</legend>
      {answer.choices.map(({ words }, i) => (
        <label key={words} data-chosen={value === i || undefined}>
          <input type="radio" name="prediction" checked={value === i} onChange={() => onValue(i)} />
          <span className="k" aria-hidden="true">
            {i + 1}
          </span>
          <span>
            <Prose text={words} hidden={hidden} states={states} />
          </span>
        </label>
      ))}
    </fieldset>
  )
}

/** 'f/8', '-1.5 stops', '24 mm': the figure in it. NaN: there is none. */
const figureIn = (typed: string): number =>
  Number(
    /^\s*(?:f\s*\/?)?\s*([-−+]?\d+(?:[.,]\d+)?)/i.exec(typed)?.[1]?.replace('−', '-').replace(',', '.') ?? Number.NaN,
  )

function NumberBox({
  unit,
  value,
  locked,
  onValue,
}: Pick<WidgetProps, 'value' | 'locked' | 'onValue'> & { unit: string }) {
  const [typed, setTyped] = useState(value === null ? '' : String(value))
  const isNone = typed.trim() !== '' && Number.isNaN(figureIn(typed))
  return (
    <p className="number-box">
      <input
        className="field"
        inputMode="decimal"
        autoComplete="off"
        aria-label={`your prediction, ${unit || 'a number'}`}
        aria-invalid={isNone}
        disabled={locked}
        value={typed}
        onChange={(event) => {
          setTyped(event.currentTarget.value)
          const figure = figureIn(event.currentTarget.value)
          onValue(Number.isNaN(figure) ? null : figure)
        }}
      />
      {` ${unit}`}
      {isNone && <span role="alert"> Expected a number, such as 5.6.</span>}
    </p>
  )
}

/** After 'Right', 'Off' or 'Not this one': what is right. */
function foundWords(kind: Answer['kind'], { right, words, answer }: Graded): string {
  if (kind === 'choice') return right ? '.' : `. The answer is: ${answer}.`
  return `${right ? `, ${words.replace(/^right, /, '')}` : words.replace(/^off/, '')}: it is ${answer}.`
}

const leadOf = (kind: Answer['kind'], { right, words }: Graded): string => {
  if (right) return 'Right'
  if (kind === 'choice') return 'Not this one'
  return words.startsWith('off') ? 'Off' : 'Not so, '
}

interface VerdictProps {
  readonly question: Question
  readonly given: number
  readonly states: States
  /** No step after it explains: the cause is said of a right answer too. */
  readonly isLast: boolean
}

/** What the program says of an answer; it waits until the light is read to the end. */
function Verdict({ question, given, states, isLast }: VerdictProps) {
  const { answer } = question
  const why = (answer.kind === 'choice' ? answer.choices[given]?.why : undefined) ?? question.hint ?? ''
  const readings = (set: string | undefined) => (set === undefined ? null : states.readingsOf(set))
  const graded = isJudgeable(answer, states) ? grade(answer, given, readings) : null
  const says = graded !== null && (isLast || !graded.right)
  const reason = graded && answer.kind === 'choice' ? reasonOf(answer, readings, question.sets) : ''
  return (
    <p className="verdict" role="status">
      {graded === null ? (
        'reading the light to judge it'
      ) : (
        <>
          <b>{leadOf(answer.kind, graded)}</b>
          {held(foundWords(answer.kind, graded))}
          {reason && held(` ${reason[0]!.toUpperCase()}${reason.slice(1)}.`)}
          {says && why && ' '}
          {says && <Prose text={why} hidden={NOTHING} states={states} />}
          {question.why && (
            <>
              {' '}
              <Prose text={question.why} hidden={NOTHING} states={states} />
            </>
          )}
        </>
      )}
    </p>
  )
}
