import { useEffect, useState } from 'react'
import { cautionReadings, judgeAll, judgeParts, type Lesson, onlyWords, sittingOf, type TryStep } from '../../lesson'
import type { Sitting } from '../../sitting'
import { useDerived } from '../derived'
import { setSession, useSitting } from '../store'
import { doneWords, NextLesson, ToMissed } from './end'
import { explainedAt, goTo, NOT_TRYING, noteDone, setLesson, useLesson } from './lesson-store'
import { NOTHING, Prose } from './prose'
import { beginGoal, goalWords } from './step-words'
import { ofText, useStates } from './use-states'

/** Over the working surface while a goal is tried: what is asked, and by how much the set misses it. */
export function GoalStrip() {
  const lesson = useLesson((state) => state.lesson)
  const index = useLesson((state) => state.step)
  const step = lesson?.steps[index]
  return lesson && step?.kind === 'try' && step.goal ? <Strip lesson={lesson} index={index} step={step} /> : null
}

/** The working surface begins where the strip ends, however many lines it has. */
function roomFor(strip: HTMLElement | null): (() => void) | undefined {
  if (!strip) return undefined
  const { style } = document.documentElement
  const watch = new ResizeObserver(() => style.setProperty('--strip', `${strip.offsetHeight}px`))
  watch.observe(strip)
  return () => {
    watch.disconnect()
    style.removeProperty('--strip')
  }
}

/** The longest verdicts: of what is sought, and of what is to stay as it was, which mostly does. */
const LONGEST = { sought: ': misses by 8.9 mm (too narrow)', kept: ': met' }

/** The task, until it is met; then the cause, in its place. */
const saidOf = ({ text, why }: TryStep, met: boolean): string => (met ? `Goal met.${why ? ` ${why}` : ''}` : text)

const back = (): void => setSession({ teaching: 'open', ...NOT_TRYING })

function Strip({ lesson, index, step }: { lesson: Lesson; index: number; step: TryStep }) {
  const { tries, judged, missed } = useLesson()
  const sitting = useSitting()
  const verdicts = judged?.of === sitting ? judged.verdicts : null
  // Comes anew with every reading; what counts is that of this very set, read to the end.
  const read = useDerived((derived) => derived.read)
  const own = read?.settled && read.of === sitting ? [...read.readings, ...cautionReadings(read.cautions)] : null
  // A goal that is measured against another state needs its numbers too.
  const others = step.goal!.flatMap(({ minus }) => minus ?? [])
  const states = useStates(
    lesson,
    [],
    [],
    [
      ...others,
      ...(step.from === undefined ? [] : [step.from]),
      ...ofText(`${step.text} ${step.hint ?? ''} ${step.why ?? ''}`),
    ],
  )
  const isRead = own !== null && (others.length === 0 || states.settled)
  const left = step.tries === undefined ? Number.POSITIVE_INFINITY : step.tries - tries
  const met = verdicts?.every((verdict) => verdict.met) ?? false
  const leftWords = Number.isFinite(left) && left > 0 ? `, ${left} left` : ''
  const isLast = index === lesson.steps.length - 1
  const why = explainedAt(lesson, index)
  const seeWhy = (step: number) => {
    back()
    goTo(step)
  }
  const ofParts = () => {
    const from = step.from === undefined ? null : sittingOf(lesson, step.from)
    return step.only && from ? [judgeParts(step.only, from, sitting)] : []
  }
  const judgeNow = () => {
    const found = judgeAll(step.goal!, (set) => (set === undefined ? own : states.readingsOf(set)))
    if (!found) return
    const all = [...found, ...ofParts()]
    setLesson({ judged: { of: sitting, verdicts: all }, tries: tries + 1 })
    // Questions of the same step say so themselves.
    if (!step.questions && all.every((verdict) => verdict.met)) noteDone()
  }
  /** Judged once its light is read, if it is still the same set. */
  const [waiting, setWaiting] = useState<Sitting | null>(null)
  const waits = !isRead && waiting === sitting
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when the light is read
  useEffect(() => {
    if (!isRead || waiting === null) return
    if (waiting === sitting) judgeNow()
    setWaiting(null)
  }, [isRead])
  const begun = step.from === undefined ? null : states.readingsOf(step.from)
  const sought = (i: number) => step.goal![i] !== undefined && step.goal![i].minus === undefined
  const asked = [
    ...step.goal!.map((condition) => goalWords(condition, own ?? read?.readings ?? null, step.from, begun)),
    ...(step.only ? [onlyWords(step.only, lesson.start.sources)] : []),
  ]
  return (
    <section ref={roomFor} className="goal-strip" aria-label="Goal of the lesson">
      <p role="status">
        {/* Whole: in the bar there is often no room for it. */}
        <b>{`${lesson.number === undefined ? '' : `${lesson.number} `}${lesson.title}: `}</b>
        <Prose text={saidOf(step, met)} hidden={NOTHING} states={states} />
      </p>
      <ul role="status">
        {asked.map((words, i) => (
          <li key={words} data-met={verdicts?.[i]?.met || undefined}>
            {words}
            <b>{verdicts?.[i] && `: ${verdicts[i].words}`}</b>
            {/* Room for the longest, so that nothing below it moves once it is judged. */}
            <b className="room" aria-hidden="true">
              {LONGEST[sought(i) ? 'sought' : 'kept'].slice(verdicts?.[i] ? verdicts[i].words.length + 2 : 0)}
            </b>
          </li>
        ))}
        {/* Its room is there before it is said, so that nothing below it moves. */}
        {!met && (
          <li className={verdicts ? 'whole' : 'whole unsaid'}>
            <b>Not yet. </b>
            <Prose text={step.hint ?? ''} hidden={NOTHING} states={states} />
          </li>
        )}
        {met && step.tries !== undefined && <li>{`In ${tries === 1 ? 'one try' : `${tries} tries`}.`}</li>}
        {met && isLast && <li className="whole">{doneWords(lesson, missed)}</li>}
        {!met && left <= 0 && <li>That was the last try: begin again.</li>}
      </ul>
      <div>
        <button
          type="button"
          className="word under lock"
          disabled={left <= 0}
          onClick={() => (isRead ? judgeNow() : setWaiting(sitting))}
        >
          {waits ? 'judging …' : 'judge it'}
          {leftWords}
          {/* Its room stays, so that no word beside it moves. */}
          <span style={{ visibility: isRead ? 'hidden' : 'visible' }}>: reading the light</span>
        </button>
        <button type="button" className="word under" onClick={() => beginGoal(lesson, step)}>
          begin again
        </button>
        <button type="button" className="word under" onClick={back}>
          back to the lesson
        </button>
        {verdicts && !met && why !== null && (
          <button type="button" className="word under" onClick={() => seeWhy(why)}>
            see why
          </button>
        )}
        {met && isLast && missed.length > 0 && <ToMissed missed={missed} onGo={seeWhy} />}
        {met && isLast && <NextLesson lesson={lesson} />}
      </div>
    </section>
  )
}
