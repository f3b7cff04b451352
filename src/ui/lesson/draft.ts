import { type Lesson, newLesson, readLesson, writeLesson } from '../../lesson'
import { EditRefused, problemSentence } from '../../sitting'
import { fileStem, giveFile } from '../give-file'
import { currentSitting } from '../store'
import { setLesson, useLesson } from './lesson-store'

const KEPT = 'halfshade.lesson.draft'

/** The lesson under the pen: the one in hand, else the one that this browser kept, else a new one of the present sitting. */
export function draftNow(): Lesson {
  const { draft } = useLesson.getState()
  if (draft) return draft
  const begun = kept() ?? newLesson(currentSitting(), 'New lesson')
  setLesson({ draft: begun })
  return begun
}

/** What this browser keeps of it, as text; null: nothing. */
export const keptDraft = (): string | null => {
  try {
    return localStorage.getItem(KEPT)
  } catch {
    return null
  }
}

/** Puts a kept draft in its place; null: none. Throws where the browser refuses. */
export const putDraft = (text: string | null): void =>
  text === null ? localStorage.removeItem(KEPT) : localStorage.setItem(KEPT, text)

function kept(): Lesson | null {
  try {
    const text = keptDraft()
    const result = text === null ? null : readLesson(text)
    return result && 'lesson' in result ? result.lesson : null
  } catch {
    return null
  }
}

/** An edit of the draft; a refused one changes nothing and is told. True: done. */
export function editDraft(change: (lesson: Lesson) => Lesson): boolean {
  try {
    const draft = change(draftNow())
    setLesson({ draft, fault: null })
    keep(draft)
    return true
  } catch (error) {
    if (!(error instanceof EditRefused)) throw error
    setLesson({ fault: error.message })
    return false
  }
}

function keep(draft: Lesson): void {
  try {
    localStorage.setItem(KEPT, writeLesson(draft))
  } catch {
    setLesson({ fault: 'This browser does not keep the lesson: save it as a file before you leave.' })
  }
}

export function saveDraft(): void {
  const draft = draftNow()
  giveFile(`${fileStem(draft.title)}.lesson.json`, writeLesson(draft))
}

/** Another lesson under the pen; the one before can be had back. */
function replaceDraft(lesson: Lesson): void {
  const draftBefore = draftNow()
  if (editDraft(() => lesson)) setLesson({ draftBefore })
}

/** A new one of the sitting on the working surface. */
export const beginDraft = (): void => replaceDraft(newLesson(currentSitting(), 'New lesson'))

export function backToDraftBefore(): void {
  const { draftBefore } = useLesson.getState()
  if (draftBefore) replaceDraft(draftBefore)
}

/** The text of a file, to go on with. */
export function takeDraft(name: string, text: string): void {
  const result = readLesson(text)
  if ('lesson' in result) replaceDraft(result.lesson)
  else setLesson({ fault: `${name} was not opened. ${result.problems.slice(0, 3).map(problemSentence).join(' ')}` })
}
