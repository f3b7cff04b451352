import { type ReactNode, useEffect, useState } from 'react'
import type { Lesson } from '../../lesson'
import { reach, setLesson, useLesson } from './lesson-store'

interface HeadProps {
  readonly lesson: Lesson
  readonly index: number
  readonly titled: string
  onStep(to: number): void
  onProject(): void
  onClose(): void
}

/** A step that was pressed and is not open, and where what is said of it stands: under its word, px in the head. */
interface Refused {
  readonly step: number
  readonly left: number
  readonly top: number
}
const REFUSED_REM = 26
const placeOf = ({ left, top }: Refused) => ({ left: `clamp(0px, ${left}px, 100% - ${REFUSED_REM}rem)`, top })

/** Title, the steps by name, and ways out. Steps past a prediction that is not in cannot be entered: a press on one says why. */
export function Head({ lesson, index, titled, onStep, onProject, onClose }: HeadProps) {
  const given = useLesson((state) => state.given)
  const projected = useLesson((state) => state.projected)
  const last = reach(lesson, given)
  const [refused, setRefused] = useState<Refused | null>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: another step, or another answer, and it is no longer so
  useEffect(() => setRefused(null), [index, last])
  const first = `answer step ${last + 1} first`
  return (
    <header className="contact-head">
      <h2 id={titled}>
        {lesson.number !== undefined && <span className="n">{lesson.number}</span>} {lesson.title}
      </h2>
      <nav className="steps" aria-label="Steps of the lesson">
        {lesson.steps.map(({ kind }, i) => (
          <button
            // biome-ignore lint/suspicious/noArrayIndexKey: steps stand where they stand
            key={i}
            type="button"
            className="word"
            aria-current={i === index ? 'step' : undefined}
            aria-label={`step ${i + 1} of ${lesson.steps.length}: ${kind}${i > last ? `, not yet open: ${first}` : ''}`}
            aria-disabled={i > last || undefined}
            title={i > last ? `not yet open: ${first}` : undefined}
            onClick={({ currentTarget: { offsetLeft, offsetTop, offsetHeight } }) =>
              i > last ? setRefused({ step: i, left: offsetLeft, top: offsetTop + offsetHeight }) : onStep(i)
            }
          >
            {kind}
          </button>
        ))}
      </nav>
      <p className="refused" role="status" style={refused ? placeOf(refused) : undefined}>
        {refused && `Step ${refused.step + 1} is not yet open: ${first}.`}
      </p>
      <div className="equals">
        <button type="button" className="word" aria-pressed={projected} onClick={onProject}>
          projector
        </button>
        <button type="button" className="word" onClick={() => setLesson({ view: 'handout' })}>
          handout
        </button>
        <button type="button" className="word" onClick={onClose}>
          all lessons
        </button>
      </div>
    </header>
  )
}

interface FootProps {
  readonly lesson: Lesson
  readonly index: number
  /** So many can be chosen by figure. */
  readonly choices: number
  onStep(to: number): void
  /** So many can be held. */
  readonly pictures: number
  /** At the end of the keys. */
  readonly children: ReactNode
  onCut(): void
  onAgain(): void
}

/** The keys, each also a word to press. */
export function Foot({ lesson, index, choices, pictures, children, onStep, onCut, onAgain }: FootProps) {
  const given = useLesson((state) => state.given)
  const last = reach(lesson, given)
  const isLast = index === lesson.steps.length - 1
  const waits = index === last && !isLast
  return (
    <footer className="lesson-foot">
      {choices > 0 && (
        <span className="hint">
          <kbd>1</kbd> to <kbd>{choices}</kbd> answer, <kbd>Enter</kbd> lock and show
        </span>
      )}
      {pictures > 0 && (
        <button type="button" className="word" onClick={onCut}>
          <kbd>F</kbd> {pictures > 1 ? 'compare pictures' : 'enlarge the picture'}
        </button>
      )}
      <button type="button" className="word" disabled={index === 0} onClick={() => onStep(index - 1)}>
        <kbd>PgUp</kbd> back
      </button>
      <button type="button" className="word" disabled={waits || isLast} onClick={() => onStep(index + 1)}>
        <kbd>PgDn</kbd> {isLast ? 'last step' : waits ? 'on, once answered' : 'on'}
      </button>
      <span className="what-unsettled" aria-hidden="true">
        ≈ not settled yet
      </span>
      <button type="button" className="word end" onClick={onAgain}>
        <kbd>Home</kbd> lesson start
      </button>
      <button type="button" className="word" onClick={() => setLesson({ view: 'list' })}>
        <kbd>Esc</kbd> all lessons
      </button>
      {children}
    </footer>
  )
}
