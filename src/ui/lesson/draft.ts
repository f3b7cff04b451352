import { type Lesson, newLesson, readLesson, writeLesson } from '../../lesson'
import {
  EditRefused,
  type History,
  problemSentence,
  recordOpening,
  recordStep,
  redo,
  startHistory,
  undo,
} from '../../sitting'
import { earlierOf, readEarlier, resumed } from '../earlier'
import { fileStem, giveFile } from '../give-file'
import { currentSitting } from '../store'
import { setLesson, useLesson } from './lesson-store'

const KEPT = 'halfshade.lesson.draft'
/** Lessons that the draft was laid over. */
const KEPT_EARLIER = 'halfshade.lesson.drafts-before'

/** The lesson under the pen with its steps: the one in hand, else what this browser kept, else a new one of the present sitting. */
export function draftNow(): History<Lesson> {
  const { draft } = useLesson.getState()
  if (draft) return draft
  const begun = kept() ?? startHistory(newLesson(currentSitting(), 'New lesson'))
  setLesson({ draft: begun })
  return begun
}

/** What this browser keeps under a key, as text; null: nothing. */
const read = (key: string): string | null => {
  try {
    return localStorage.getItem(key)
  } catch {
    return null
  }
}

const put = (key: string, text: string | null): void =>
  text === null ? localStorage.removeItem(key) : localStorage.setItem(key, text)

/** The kept draft, and those that it was laid over, as texts; null: none. */
export const keptDraft = (): { readonly draft: string | null; readonly before: string | null } => ({
  draft: read(KEPT),
  before: read(KEPT_EARLIER),
})

/** Puts kept drafts in their place. Throws where the browser refuses. */
export function putDraft({ draft, before }: ReturnType<typeof keptDraft>): void {
  put(KEPT, draft)
  put(KEPT_EARLIER, before)
}

function kept(): History<Lesson> | null {
  const { draft, before } = keptDraft()
  const lesson = draft === null ? null : lessonIn(draft)
  return draft === null || lesson === null ? null : resumed(lesson, draft, readEarlier(parsed(before)), lessonIn)
}

function lessonIn(text: string): Lesson | null {
  const result = readLesson(text)
  return 'lesson' in result ? result.lesson : null
}

function parsed(text: string | null): unknown {
  try {
    return text === null ? null : JSON.parse(text)
  } catch {
    return null
  }
}

/** An edit of the draft as a step of that name; a refused one changes nothing and is told. True: done. */
export function editDraft(name: string, change: (lesson: Lesson) => Lesson): boolean {
  const draft = draftNow()
  try {
    take(recordStep(draft, name, change(draft.present)))
    return true
  } catch (error) {
    if (!(error instanceof EditRefused)) throw error
    setLesson({ fault: error.message })
    return false
  }
}

/** This history under the pen, and kept; what it was laid over only where that changed. */
function take(draft: History<Lesson>): void {
  const openings = ({ past }: History<Lesson>) => past.filter(({ opens }) => opens).length
  const isSame = openings(draftNow()) === openings(draft)
  setLesson({ draft, fault: null })
  try {
    put(KEPT, writeLesson(draft.present))
    if (!isSame) put(KEPT_EARLIER, JSON.stringify(earlierOf(draft, writeLesson)))
  } catch {
    setLesson({ fault: 'This browser does not keep the lesson: save it as a file before you leave.' })
  }
}

export const undoDraft = (): void => take(undo(draftNow()))
export const redoDraft = (): void => take(redo(draftNow()))

export function saveDraft(): void {
  const draft = draftNow().present
  giveFile(`${fileStem(draft.title)}.lesson.json`, writeLesson(draft))
}

/** A new one of the sitting on the working surface; undo gives the one before back, also in another visit. */
export const beginDraft = (): void =>
  take(recordOpening(draftNow(), 'new lesson', newLesson(currentSitting(), 'New lesson')))

/** The text of a file, to go on with; undo as for a new one. */
export function takeDraft(name: string, text: string): void {
  const result = readLesson(text)
  if ('lesson' in result) take(recordOpening(draftNow(), `${name} opened`, result.lesson))
  else setLesson({ fault: `${name} was not opened. ${result.problems.slice(0, 3).map(problemSentence).join(' ')}` })
}
