import type { Lesson } from '../../lesson'
import { closeLessons, reach, setLesson, useLesson } from './lesson-store'

interface HeadProps {
  readonly lesson: Lesson
  readonly index: number
  readonly titled: string
  onStep(to: number): void
  onProject(): void
}

/** Title, the steps by name, and ways out. Steps past a prediction that is not in cannot be entered. */
export function Head({ lesson, index, titled, onStep, onProject }: HeadProps) {
  const given = useLesson((state) => state.given)
  const projected = useLesson((state) => state.projected)
  const last = reach(lesson, given)
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
            aria-label={`step ${i + 1} of ${lesson.steps.length}: ${kind}`}
            disabled={i > last}
            title={i > last ? 'after the prediction' : undefined}
            onClick={() => onStep(i)}
          >
            {kind}
          </button>
        ))}
      </nav>
      <div className="equals">
        <button type="button" className="word" aria-pressed={projected} onClick={onProject}>
          projector
        </button>
        <button type="button" className="word" onClick={() => setLesson({ view: 'handout' })}>
          handout
        </button>
        <button type="button" className="word" onClick={() => setLesson({ view: 'list' })}>
          all lessons
        </button>
        <button type="button" className="word" onClick={closeLessons}>
          close
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
  onCut(): void
  onAgain(): void
  /** To the answers before the lesson was begun anew. */
  onBack(): void
}

/** The keys, each also a word to press. */
export function Foot({ lesson, index, choices, onStep, onCut, onAgain, onBack }: FootProps) {
  const given = useLesson((state) => state.given)
  const hasLeft = useLesson(({ left }) => left[lesson.title] !== undefined)
  const last = reach(lesson, given)
  const waits = index === last && index < lesson.steps.length - 1
  return (
    <footer className="lesson-foot">
      {choices > 0 && (
        <span className="hint">
          <kbd>1</kbd> to <kbd>{choices}</kbd> answer, <kbd>Enter</kbd> lock and show
        </span>
      )}
      <button type="button" className="word" onClick={onCut}>
        <kbd>F</kbd> freeze A against B
      </button>
      <button type="button" className="word" disabled={index === 0} onClick={() => onStep(index - 1)}>
        <kbd>PgUp</kbd> back
      </button>
      <button
        type="button"
        className="word"
        disabled={waits || index === lesson.steps.length - 1}
        onClick={() => onStep(index + 1)}
      >
        <kbd>PgDn</kbd> {waits ? 'on, after the prediction' : 'on'}
      </button>
      <button type="button" className="word end" onClick={onAgain}>
        <kbd>Home</kbd> lesson start
      </button>
      {hasLeft && (
        <button type="button" className="word" onClick={onBack}>
          back to the answers before
        </button>
      )}
    </footer>
  )
}
