import type { Lesson } from '../../lesson'
import { nextAfter } from './catalogue'
import { setLesson } from './lesson-store'

/** Said at the last step, with the way on. */
export function End({ lesson }: { lesson: Lesson }) {
  const next = nextAfter(lesson)
  return (
    <p className="end-of-lesson">
      Last step of this lesson.{' '}
      <button
        type="button"
        className="word under"
        onClick={() => (next ? void next.open() : setLesson({ view: 'list' }))}
      >
        {next
          ? `next: ${next.number === null ? '' : `lesson ${next.number}, `}${next.title}`
          : 'to the list of lessons'}
      </button>
    </p>
  )
}

/** To the answers before the lesson was begun anew. */
export const BackToAnswers = ({ onBack }: { onBack: () => void }) => (
  <button type="button" className="word under" onClick={onBack}>
    back to the answers before
  </button>
)
