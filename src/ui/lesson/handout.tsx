import { useState } from 'react'
import '../look/handout.css'
import { type Answer, grade, type Lesson, onlyWords, type Question, type TryStep } from '../../lesson'
import { Over } from '../contact/over'
import { PLATE_BOX, Plate } from './angle-dial'
import { CauseOnPaper, drawnOnPaper, explainsEdge } from './cause'
import { type Asked, questionsAt, setLesson } from './lesson-store'
import { NOTHING, Prose } from './prose'
import { goalWords, unitOf } from './step-words'
import { readFor, type States, useStates } from './use-states'

const TITLE = 'handout-title'

/** For paper: predictions on one page, answers on another. */
export function Handout({ lesson }: { lesson: Lesson }) {
  const states = useStates(
    lesson,
    [],
    [],
    lesson.steps.flatMap((step) => [...readFor(step), ...drawnOnPaper(step)]),
  )
  const [told, tell] = useState(false)
  return (
    <Over titled={TITLE} className="lesson handout" onClose={() => setLesson({ view: 'steps' })}>
      <header className="contact-head">
        <h2 id={TITLE}>Handout: {lesson.title}</h2>
        <p className="whereabouts" role="status">
          {states.settled
            ? 'Two pages: predictions, answers.'
            : 'The light is still read; numbers come as they are known.'}
        </p>
        <button type="button" className="word" disabled={!states.settled} onClick={() => window.print()}>
          print
        </button>
        <button type="button" className="word" aria-expanded={told} onClick={() => tell(!told)}>
          answers
        </button>
        <button type="button" className="word" onClick={() => setLesson({ view: 'steps' })}>
          close
        </button>
      </header>
      {states.fault && <p className="said">{states.fault}</p>}
      <Predictions lesson={lesson} states={states} />
      {/* On paper in any case; on a screen that the class sees, when it is asked for. */}
      <div className={told ? undefined : 'paper-only'}>
        <Answers lesson={lesson} states={states} />
      </div>
    </Over>
  )
}

interface PageProps {
  readonly lesson: Lesson
  readonly states: States
}

const allAsked = (lesson: Lesson): readonly Asked[] => lesson.steps.flatMap((_, i) => questionsAt(lesson, i))

const Title = ({ lesson, of }: { lesson: Lesson; of: string }) => (
  <h3>
    {lesson.number !== undefined && `${lesson.number}. `}
    {lesson.title}: {of}
  </h3>
)

/** Steps that ask for something, each with its questions and the number of the first of them. */
function askingSteps(lesson: Lesson) {
  let first = 1
  return lesson.steps.flatMap((step, i) => {
    // Paper has no pictures to measure in.
    const asked = step.kind === 'measure' ? [] : questionsAt(lesson, i)
    const start = first
    first += asked.length
    return asked.length > 0 || (step.kind === 'try' && step.goal) ? [{ key: i, step, asked, start }] : []
  })
}

function Predictions({ lesson, states }: PageProps) {
  return (
    <article className="paper" aria-label="Predictions">
      <Title lesson={lesson} of="predictions" />
      <p className="who">
        <span>name</span> <span>date</span>
      </p>
      {askingSteps(lesson).map(({ key, step, asked, start }) => (
        <div key={key}>
          {step.kind === 'try' && <Try step={step} states={states} />}
          {asked.length > 0 && (
            <ol start={start}>
              {asked.map(({ key, question }) => (
                <li key={key}>
                  <Asks question={question} states={states} />
                  <ToFill answer={question.answer} hidden={question.hides} states={states} />
                </li>
              ))}
            </ol>
          )}
        </div>
      ))}
    </article>
  )
}

/** What is tried: its words, and its goal. */
function Try({ step, states }: { step: TryStep; states: States }) {
  return (
    <>
      <p>
        Try: <Prose text={step.text} hidden={[]} states={states} />
      </p>
      {step.goal && (
        <ul>
          {step.goal.map((condition) => (
            <li key={`${condition.reading} ${condition.minus}`}>
              {goalWords(condition, step.from === undefined ? null : states.readingsOf(step.from), step.from)}
            </li>
          ))}
          {step.only && <li>{onlyWords(step.only)}</li>}
        </ul>
      )}
    </>
  )
}

/** A question, led by the names of the pictures that it is asked of, but for those that its choices name. */
const Asks = ({ question, states }: { question: Question; states: States }) => (
  <p>
    {!areChoices(question) && question.sets.length > 0 && (
      <b>{question.sets.map((name) => `“${name}”`).join(', ')}: </b>
    )}
    <Prose text={question.text} hidden={NOTHING} states={states} />
  </p>
)

const areChoices = ({ sets, answer }: Question): boolean =>
  answer.kind === 'choice' && sets.every((name) => answer.choices.some(({ words }) => words === name))

/** Where the pen goes. */
function ToFill({ answer, hidden, states }: { answer: Answer; hidden: readonly string[]; states: States }) {
  if (answer.kind === 'number')
    return (
      <p className="fill">
        <span /> {unitOf(answer.of, states)}
      </p>
    )
  if (answer.kind === 'angle')
    return (
      <svg className="circle" viewBox={PLATE_BOX[answer.plane]} role="img" aria-label="to draw the lamp on">
        <Plate plane={answer.plane} />
      </svg>
    )
  return (
    <ul className="boxes">
      {answer.choices.map(({ words }) => (
        <li key={words}>
          <Prose text={words} hidden={hidden} states={states} />
        </li>
      ))}
    </ul>
  )
}

function Answers({ lesson, states }: PageProps) {
  const readings = (set: string | undefined) => (set === undefined ? null : states.readingsOf(set))
  return (
    <article className="paper" aria-label="Answers">
      <Title lesson={lesson} of="answers" />
      <ol>
        {allAsked(lesson).map(({ key, question }) => (
          <li key={key}>
            <Asks question={question} states={states} />
            <p>
              <b>{states.settled ? (grade(question.answer, 0, readings)?.answer ?? '–') : '…'}</b>
              {question.answer.kind !== 'choice' && ` (right within ${question.answer.within})`}
            </p>
          </li>
        ))}
      </ol>
      {lesson.steps.map((step) =>
        step.kind === 'explain' ? (
          <div key={step.text}>
            <p>
              <Prose text={step.text} hidden={[]} states={states} />
            </p>
            {explainsEdge(step) && <CauseOnPaper sets={step.sets} states={states} />}
            {step.formula && <p className="formula">{step.formula}</p>}
          </div>
        ) : null,
      )}
      {lesson.note && <p className="note">{lesson.note}</p>}
    </article>
  )
}
