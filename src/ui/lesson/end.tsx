import type { Lesson } from '../../lesson'
import { setSession } from '../store'
import { kinOf, nextAfter } from './catalogue'
import { NOT_TRYING, setLesson, useLesson } from './lesson-store'
import type { Next } from './question'

/** Said at the last step, with the way on. */
export function End({ lesson, onStep }: { lesson: Lesson; onStep(to: number): void }) {
  const isMet = useLesson(({ judged }) => judged?.verdicts.every(({ met }) => met) ?? false)
  const missed = useLesson((state) => state.missed)
  return (
    <p className="end-of-lesson">
      {isMet ? doneWords(lesson, missed) : 'Last step of this lesson.'}{' '}
      {isMet && missed.length > 0 && <ToMissed missed={missed} onGo={onStep} />} <NextLesson lesson={lesson} />{' '}
      <KinLesson lesson={lesson} />
    </p>
  )
}

/** Said once the goal of the last step is met: the question that the lesson answers, which is now answered. missed: steps whose questions were. */
export const doneWords = ({ title, answers }: Lesson, missed: readonly number[]): string =>
  `“${answers ?? title}” You have shown it by hand${
    missed.length === 0 ? ': this lesson is done' : `; the questions of step ${missed[0]! + 1} are not passed yet`
  }.`

/** To the first step whose questions are not passed yet. */
export const ToMissed = ({ missed, onGo }: { missed: readonly number[]; onGo: (step: number) => void }) => (
  <button type="button" className="word under" onClick={() => onGo(missed[0]!)}>
    {`to step ${missed[0]! + 1}`}
  </button>
)

/** To the lesson after it, or to the list. */
export function NextLesson({ lesson }: { lesson: Lesson }) {
  const next = nextAfter(lesson)
  return (
    <button
      type="button"
      className="word under next-lesson"
      onClick={() => {
        if (next) return void next.open()
        setSession({ teaching: 'open', ...NOT_TRYING })
        setLesson({ view: 'list' })
      }}
    >
      {next ? `next: ${next.number === null ? '' : `lesson ${next.number}, `}${next.title}` : 'to the list of lessons'}
    </button>
  )
}

/** To another lesson on the same thing, where the course has it apart. */
function KinLesson({ lesson }: { lesson: Lesson }) {
  const kin = kinOf(lesson)
  if (!kin) return null
  const { on, entry } = kin
  return (
    <button type="button" className="word under kin-lesson" onClick={() => void entry.open()}>
      {`more on ${on}: lesson ${entry.number}, ${entry.title}`}
    </button>
  )
}

/** The way on from a step that asks for nothing. */
export const Onward = ({ next }: { next: Next }) => (
  <button type="button" className="word under lock onward" onClick={next.go}>
    {next.words}
  </button>
)

/** To the answers before the lesson was begun anew. */
export const BackToAnswers = ({ onBack }: { onBack: () => void }) => (
  <button type="button" className="word under" onClick={onBack}>
    back to the answers before
  </button>
)
