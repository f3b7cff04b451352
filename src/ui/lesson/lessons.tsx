import '../look/lesson.css'
import '../look/lesson-cause.css'
import '../look/lesson-dial.css'
import '../look/lesson-over.css'
import '../look/lesson-pictures.css'
import '../look/lesson-projected.css'
import { useSession } from '../store'
import { GoalStrip } from './goal-strip'
import { Handout } from './handout'
import { LessonPage } from './lesson-page'
import { useLesson } from './lesson-store'
import { List } from './list'
import { Writer } from './writer'

/** All of the lessons: the list, one of them, its handout, the desk to write one; or the goal that is tried on the surface. */
export default function Lessons() {
  const trying = useSession((session) => session.teaching === 'trying')
  const view = useLesson((state) => state.view)
  const lesson = useLesson((state) => state.lesson)
  if (trying) return <GoalStrip />
  if (view === 'steps' && lesson) return <LessonPage key={lesson.title} lesson={lesson} />
  if (view === 'handout' && lesson) return <Handout lesson={lesson} />
  if (view === 'writing') return <Writer />
  return <List />
}
