import { useState } from 'react'
import '../look/handout.css'
import { type Answer, grade, type Lesson, onlyWords } from '../../lesson'
import { Over } from '../contact/over'
import { type Asked, closeLessons, questionsAt, setLesson } from './lesson-store'
import { NOTHING, Prose } from './prose'
import { goalWords, unitOf } from './step-words'
import { readFor, type States, useStates } from './use-states'

const TITLE = 'handout-title'

/** For paper: predictions on one page, answers on another. */
export function Handout({ lesson }: { lesson: Lesson }) {
  const states = useStates(lesson, [], [], lesson.steps.flatMap(readFor))
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
          back to the lesson
        </button>
        <button type="button" className="word" onClick={closeLessons}>
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

function Predictions({ lesson, states }: PageProps) {
  return (
    <article className="paper" aria-label="Predictions">
      <Title lesson={lesson} of="predictions" />
      <p className="who">
        <span>name</span> <span>date</span>
      </p>
      <ol>
        {allAsked(lesson).map(({ key, question }) => (
          <li key={key}>
            <p>
              <Prose text={question.text} hidden={NOTHING} readingsOf={states.readingsOf} />
            </p>
            <ToFill answer={question.answer} hidden={question.hides} states={states} />
          </li>
        ))}
      </ol>
      {lesson.steps.map((step) =>
        step.kind === 'try' && step.goal ? (
          <div key={step.text}>
            <p>
              Try: <Prose text={step.text} hidden={[]} readingsOf={states.readingsOf} />
            </p>
            <ul>
              {step.goal.map((condition) => (
                <li key={`${condition.reading} ${condition.minus}`}>
                  {goalWords(condition, step.from === undefined ? null : states.readingsOf(step.from))}
                </li>
              ))}
              {step.only && <li>{onlyWords(step.only)}</li>}
            </ul>
          </div>
        ) : null,
      )}
    </article>
  )
}

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
      <svg className="circle" viewBox="-50 -50 100 110" role="img" aria-label="to draw the lamp on">
        <circle r="40" />
        <path d="M-6 2a6 7 0 1 1 12 0q-3 5-4 6l-2 3-2-3q-1-1-4-6" />
        <text y="56" textAnchor="middle">
          {answer.plane === 'round' ? 'camera' : 'seen from the side'}
        </text>
      </svg>
    )
  return (
    <ul className="boxes">
      {answer.choices.map(({ words }) => (
        <li key={words}>
          <Prose text={words} hidden={hidden} readingsOf={states.readingsOf} />
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
        {allAsked(lesson).map(({ key, question: { answer, text } }) => (
          <li key={key}>
            <p>
              <Prose text={text} hidden={[]} readingsOf={states.readingsOf} />
            </p>
            <p>
              <b>{states.settled ? (grade(answer, 0, readings)?.answer ?? '–') : '…'}</b>
              {answer.kind !== 'choice' && ` (right within ${answer.within})`}
            </p>
          </li>
        ))}
      </ol>
      {lesson.steps.map((step) =>
        step.kind === 'explain' ? (
          <div key={step.text}>
            <p>
              <Prose text={step.text} hidden={[]} readingsOf={states.readingsOf} />
            </p>
            {step.formula && <p className="formula">{step.formula}</p>}
          </div>
        ) : null,
      )}
      {lesson.note && <p className="note">{lesson.note}</p>}
    </article>
  )
}
