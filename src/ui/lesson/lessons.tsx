import '../look/lesson.css'
import '../look/lesson-dial.css'
import '../look/lesson-over.css'
import '../look/lesson-pictures.css'
import '../look/lesson-projected.css'
import { Over } from '../contact/over'
import { FilePick } from '../file-pick'
import { readText } from '../read-file'
import { useSession } from '../store'
import { COURSE, type Entry, FAULTS } from './catalogue'
import { GoalStrip } from './goal-strip'
import { Handout } from './handout'
import { LessonPage } from './lesson-page'
import { closeLessons, setLesson, useLesson } from './lesson-store'
import { openLesson } from './open'
import { Writer } from './writer'

const TITLE = 'lessons-title'

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

function List() {
  const fault = useLesson((state) => state.fault)
  return (
    <Over titled={TITLE} className="lesson" onClose={closeLessons}>
      <header className="contact-head">
        <h2 id={TITLE}>Lessons</h2>
        <p className="whereabouts">Predict, see, measure, explain, try. Your sitting stays as it is.</p>
        <FilePick
          word="open a lesson"
          accept=".json,application/json"
          onFile={(file) => void readText(file, openLesson, (fault) => setLesson({ fault }))}
        />
        <button type="button" className="word" onClick={() => setLesson({ view: 'writing' })}>
          write a lesson
        </button>
        <button type="button" className="word" onClick={closeLessons}>
          close
        </button>
      </header>
      {fault && <p className="said">{fault}</p>}
      <div className="lesson-list">
        <Entries title="The course" entries={COURSE} />
        <Entries title="Faulty sets to diagnose" entries={FAULTS} />
      </div>
    </Over>
  )
}

function Entries({ title, entries }: { title: string; entries: readonly Entry[] }) {
  return (
    <section>
      <h3>{title}</h3>
      <ol>
        {entries.map(({ number, title: name, open }) => (
          <li key={name}>
            <button type="button" className="word" onClick={() => void open()}>
              {number !== null && <span className="n">{number}</span>} {name}
            </button>
          </li>
        ))}
      </ol>
    </section>
  )
}
