import { type KeyboardEvent, useEffect, useLayoutEffect, useRef, useState } from 'react'
import type { Lesson } from '../../lesson'
import { Over } from '../contact/over'
import { Cause, explainsEdge } from './cause'
import { BackToAnswers, End, Onward } from './end'
import { Freeze, useHeld } from './freeze'
import { Foot, Head } from './head-foot'
import {
  askAgain,
  cutShows,
  explainedAt,
  goBack,
  goTo,
  inTurns,
  mayCut,
  questionsAt,
  setLesson,
  startLesson,
  untilCut,
  useLesson,
} from './lesson-store'
import { NOTHING, Prose } from './prose'
import { type Next, QuestionView } from './question'
import { Score, scoreOf } from './score'
import { StepPictures, tellsEdge, tellsInner } from './step-pictures'
import { Formula, Goal } from './step-words'
import { readFor, useStates } from './use-states'

const TITLE = 'lesson-title'

const isTyping = ({ target }: KeyboardEvent): boolean => target instanceof HTMLInputElement && target.type !== 'radio'

const isChoosing = ({ target }: KeyboardEvent): boolean =>
  target instanceof Element && target.matches('input, [role=slider]')

/** How pictures and words share the page, by how many states are shown. */
const PLACES = ['', 'one', 'pair', 'few', 'many', 'row']

/** One lesson, step by step: pictures left, words right, keys below. */
export function LessonPage({ lesson }: { lesson: Lesson }) {
  const index = useLesson((state) => state.step)
  const projected = useLesson((state) => state.projected)
  const step = lesson.steps[index]!
  const [at, setAt] = useState(0)
  /** Questions that are asked anew are new ones: nothing is left in their boxes. */
  const [round, setRound] = useState(0)
  const asked = inTurns(questionsAt(lesson, index), round)
  const current = asked[Math.min(at, asked.length - 1)] ?? null
  const given = useLesson((state) => (current ? state.given[current.key] : undefined))
  const shows = current?.question ?? (step.kind === 'try' ? null : step)
  const hidden = current && given === undefined ? current.question.hides : []
  const sets = shows?.sets ?? (step.kind === 'try' && step.from !== undefined ? [step.from] : [])
  const looks = shows?.looks ?? ['camera']
  const states = useStates(lesson, sets, looks, readFor(step))
  const seen = sets.filter((set) => !hidden.includes(set))
  /** Whatever puts something brighter or darker in a picture's place keeps the same time, or turn about they would flicker. */
  const inTime = (change: () => void) => {
    if (mayCut(performance.now())) change()
  }
  const held = useHeld(sets, seen, inTime)
  useLayoutEffect(() => cutShows(performance.now()))
  const leave = (to = 0) => {
    held.drop()
    setAt(to)
    // The next step is read from its beginning, and Enter no longer presses the word that led there.
    document.getElementById(TITLE)?.closest('section')?.focus()
  }
  const hasLeft = useLesson(({ left }) => left[lesson.title] !== undefined)
  const isFresh = useLesson((state) => index === 0 && Object.keys(state.given).length === 0)
  const back = () => {
    if (goBack()) leave()
  }
  const go = (to: number) => {
    if (!goTo(to)) return
    const { given: all } = useLesson.getState()
    const open = inTurns(questionsAt(lesson, to), round).findIndex(({ key }) => all[key] === undefined)
    leave(Math.max(0, open))
  }
  /** A press on a step's name that came too soon is not lost: the last one is taken up when the pause is over. */
  const soon = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)
  const goSoon = (to: number) => {
    clearTimeout(soon.current)
    soon.current = setTimeout(() => go(to), untilCut(performance.now()))
  }
  useEffect(() => () => clearTimeout(soon.current), [])
  const isLast = index === lesson.steps.length - 1
  const next: Next | null =
    at + 1 < asked.length
      ? { words: 'next question', go: () => leave(at + 1) }
      : isLast
        ? null
        : { words: 'on to the next step', go: () => go(index + 1) }
  const why = explainedAt(lesson, index)
  const pass = (step.kind === 'try' && step.pass) || asked.length
  const answers = useLesson((state) => state.given)
  const score = step.kind === 'try' && asked.length > 0 ? scoreOf(asked, pass, answers, states) : null
  const askAnew = () =>
    inTime(() => {
      askAgain(index)
      setRound(round + 1)
      leave()
    })
  const again = () =>
    inTime(() => {
      leave()
      setRound(round + 1)
      startLesson(lesson)
    })
  const keys = (event: KeyboardEvent) => {
    if (isTyping(event) || event.ctrlKey || event.metaKey || event.altKey) return
    // On a dial or among choices these keys are its own.
    if (/^(Home|Page)/.test(event.key) && isChoosing(event)) return
    held.keys(event)
    // On the page itself, not on a word of it; where something is asked for, Enter answers.
    const isRead = step.kind !== 'try' && !(current && given === undefined)
    if (event.key === 'Enter' && isRead && event.target === event.currentTarget && !event.repeat) go(index + 1)
    else if (event.key === 'Home') again()
    else if (event.key === 'PageDown') go(index + 1)
    else if (event.key === 'PageUp') go(index - 1)
    else if (event.key.toLowerCase() === 'f') held.cut()
    else return
    event.preventDefault()
  }
  const close = () => (held.held === null ? setLesson({ view: 'list' }) : held.letGo())
  return (
    <Over titled={TITLE} className={projected ? 'lesson page projected' : 'lesson page'} onKeys={keys} onClose={close}>
      <Head
        lesson={lesson}
        index={index}
        titled={TITLE}
        onStep={goSoon}
        onClose={close}
        onProject={() =>
          inTime(() => {
            leave()
            setLesson({ projected: !projected })
          })
        }
      />
      {hasLeft && isFresh && (
        <p className="said" role="status">
          Begun anew. What you answered is put by: <BackToAnswers onBack={back} />
        </p>
      )}
      {states.fault && <p className="said">{states.fault}</p>}
      <div className="lesson-body" data-pictures={sets.length === 0 ? undefined : PLACES[Math.min(sets.length, 5)]}>
        <div className="lesson-words">
          <p className="big">
            <Prose text={step.text} hidden={NOTHING} states={states} />
          </p>
          {step.kind === 'try' && step.goal && <Goal lesson={lesson} step={step} states={states} />}
          {current && (
            <QuestionView
              key={`${current.key} ${round}`}
              asked={current}
              ownText={step.kind === 'try'}
              place={{ at, of: asked.length }}
              states={states}
              // Whoever has to try again is not led on.
              next={score?.missed ? null : next}
            />
          )}
          {score && (
            <Score
              step={index}
              asked={asked}
              pass={pass}
              score={score}
              current={current!.key}
              onAgain={askAnew}
              onWhy={why === null ? null : () => go(why)}
              onOn={isLast ? null : () => go(index + 1)}
            />
          )}
          {step.kind === 'explain' && explainsEdge(step) && (
            // Its letters are measured once: larger ones are another drawing.
            <Cause key={projected ? 'wall' : 'page'} sets={sets} states={states} />
          )}
          {step.kind === 'explain' && step.formula && <Formula key={index} text={step.formula} />}
          {!current && next && <Onward next={next} />}
          {isLast && <End lesson={lesson} onStep={go} />}
        </div>
        {sets.length > 0 && (
          <StepPictures
            sets={sets}
            hidden={hidden}
            readings={shows?.readings ?? []}
            looks={looks}
            states={states}
            step={index}
            onLarger={held.hold}
          />
        )}
      </div>
      <Foot
        lesson={lesson}
        index={index}
        choices={current?.question.answer.kind === 'choice' ? current.question.answer.choices.length : 0}
        onStep={go}
        pictures={seen.length}
        onCut={held.cut}
        onAgain={again}
      >
        {hasLeft && !isFresh && <BackToAnswers onBack={back} />}
      </Foot>
      {held.held && (
        <Freeze
          {...held}
          held={held.held}
          all={sets}
          seen={seen}
          looks={looks}
          figured={(shows?.readings ?? []).some(tellsEdge)}
          inner={(shows?.readings ?? []).some(tellsInner)}
          states={states}
        />
      )}
    </Over>
  )
}
