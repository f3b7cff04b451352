import { create } from 'zustand'
import type { Lesson, Question, Verdict } from '../../lesson'
import { type History, type Sitting, writeSitting } from '../../sitting'
import { keepAside } from '../storage'
import { currentSitting, openSitting, setSession, useStore } from '../store'
import { LESSONS_WORD } from './word'

/** What lies on the lesson's page: the list, a lesson, its handout, or the desk at which one is written. */
export type LessonView = 'list' | 'steps' | 'handout' | 'writing'

interface Left {
  readonly step: number
  readonly given: Readonly<Record<string, number>>
}

interface LessonState {
  readonly view: LessonView
  readonly lesson: Lesson | null
  /** Place of the step in sight. */
  readonly step: number
  /** Answers that are in, by question; what they hide is shown from then on. */
  readonly given: Readonly<Record<string, number>>
  /** Steps whose questions were all answered, too few of them right. */
  readonly missed: readonly number[]
  /** Where lessons begun anew had been, by title: the way back to their answers. */
  readonly left: Readonly<Record<string, Left>>
  /** For a projector: large, on black. */
  readonly projected: boolean
  /** Of the goal that is tried: how often it was judged, and what came of each of its conditions for the set judged last. */
  readonly tries: number
  readonly judged: { readonly of: Sitting; readonly verdicts: readonly Verdict[] } | null
  /** The person's own sitting while a lesson's set lies on the working surface; null: theirs lies there. */
  readonly own: Sitting | null
  /** Why a lesson could not be opened, in words. */
  readonly fault: string | null
  /** The lesson that the teacher writes, with every step back to it as it was. */
  readonly draft: History<Lesson> | null
}

export const useLesson = create<LessonState>(() => ({
  view: 'list',
  lesson: null,
  step: 0,
  given: {},
  missed: [],
  left: {},
  projected: false,
  tries: 0,
  judged: null,
  own: null,
  fault: null,
  draft: null,
}))

export const setLesson = (change: Partial<LessonState>): void => useLesson.setState(change)

/** From its beginning, with no answer given; what was answered of the lesson in hand can be had back. */
export function startLesson(lesson: Lesson): void {
  setLesson({ ...BEGUN, lesson, view: 'steps', left: withLeft(), fault: null })
  setSession({ teaching: 'open', ...NOT_TRYING })
}
/** Of the session, while no goal is tried. */
export const NOT_TRYING = { without: [], sought: [] } as const
const BEGUN = { step: 0, given: {}, missed: [], tries: 0, judged: null }

function withLeft(): LessonState['left'] {
  const { lesson, step, given, left } = useLesson.getState()
  return lesson && Object.keys(given).length > 0 ? { ...left, [lesson.title]: { step, given } } : left
}

/** To where the lesson was before it was begun anew, with its answers. False: not now. */
export function goBack(): boolean {
  const { lesson, left } = useLesson.getState()
  const to = lesson && left[lesson.title]
  if (!to || !mayCut(performance.now())) return false
  setLesson({ ...BEGUN, ...to, left: withLeft() })
  return true
}

/** Before a lesson's set takes the place of the person's own sitting, which the device keeps as what lies on the desk. */
export function putOwnAside(): void {
  if (useLesson.getState().own) return
  const own = currentSitting()
  setLesson({ own })
  void keepAside(writeSitting(own))
}

/** The person's own sitting again, as a step, so that undo still has what was tried. */
function takeOwnBack(): void {
  const { own } = useLesson.getState()
  if (!own) return
  setLesson({ own: null })
  openSitting(own, 'your own sitting again')
  void keepAside(null)
}

export function closeLessons(): void {
  takeOwnBack()
  setSession({ teaching: 'shut', ...NOT_TRYING })
  requestAnimationFrame(() => document.getElementById(LESSONS_WORD)?.focus())
}

/** A question with the key that its answer is kept under. */
export interface Asked {
  readonly key: string
  readonly question: Question
}

/** The questions of a step, in order. */
export function questionsAt({ steps }: Lesson, step: number): readonly Asked[] {
  const at = steps[step]
  if (at?.kind === 'predict') return [{ key: `${step}`, question: at }]
  if (at?.kind === 'measure' && at.answer)
    return [{ key: `${step}`, question: { ...at, answer: at.answer, hides: [] } }]
  if (at?.kind !== 'try') return []
  return (at.questions ?? []).map((question, i) => ({ key: `${step}.${i}`, question }))
}

/** The same in another order each time that they are asked anew, so that nobody answers by heart: turned on by two a round, every other time backwards. */
export function inTurns(asked: readonly Asked[], round: number): readonly Asked[] {
  const from = asked.length > 0 ? (2 * round) % asked.length : 0
  const turned = [...asked.slice(from), ...asked.slice(0, from)]
  return round % 2 === 0 ? turned : turned.reverse()
}

/** Answers to the questions of a step are taken away, so that they can be given anew. */
export function askAgain(step: number): void {
  const { lesson, given } = useLesson.getState()
  if (!lesson) return
  const keys = new Set(questionsAt(lesson, step).map(({ key }) => key))
  setLesson({ given: Object.fromEntries(Object.entries(given).filter(([key]) => !keys.has(key))) })
}

/** Keeps whether the questions of a step were missed. */
export function noteMissed(step: number, isMissed: boolean): void {
  const { missed } = useLesson.getState()
  if (missed.includes(step) === isMissed) return
  setLesson({ missed: isMissed ? [...missed, step] : missed.filter((each) => each !== step) })
}

/** Once the last step is passed, and the questions of none are missed, the device keeps that the lesson is done. */
export function noteDone(): void {
  const { lesson, step, missed } = useLesson.getState()
  const { lessonsDone } = useStore.getState().session
  if (!lesson || step < lesson.steps.length - 1 || missed.length > 0 || lessonsDone.includes(lesson.title)) return
  setSession({ lessonsDone: [...lessonsDone, lesson.title] })
}

/** The step that explains what a later one asks for: the last one before it; null: none does. */
export function explainedAt({ steps }: Lesson, step: number): number | null {
  const at = steps.findLastIndex(({ kind }, i) => kind === 'explain' && i < step)
  return at < 0 ? null : at
}

/** How far one may go on: to the first prediction that is not in. */
export function reach(lesson: Lesson, given: LessonState['given']): number {
  const open = lesson.steps.findIndex((step, i) => step.kind === 'predict' && given[`${i}`] === undefined)
  return open < 0 ? lesson.steps.length - 1 : open
}

/** Between two pictures that take each other's place, ms: under three changes of brightness a second. */
export const CUT_MS = 400

let lastCut = Number.NEGATIVE_INFINITY
let isCutDue = false
/** Whether the picture may change now; if so it counts as changed. */
export function mayCut(now: number): boolean {
  if (now - lastCut < CUT_MS) return false
  lastCut = now
  isCutDue = true
  return true
}

/** The change that was let is there to be seen: on a slow machine later than it was asked for, and the pause begins only now. */
export function cutShows(now: number): void {
  if (isCutDue) lastCut = now
  isCutDue = false
}

/** How long until the picture may change, ms. */
export const untilCut = (now: number): number => Math.max(0, Math.ceil(lastCut + CUT_MS - now) + 1)

/** To another step, at most every CUT_MS, and never past a prediction that is not in. False: not now. */
export function goTo(step: number): boolean {
  const { lesson, given } = useLesson.getState()
  if (!lesson || step < 0 || step > reach(lesson, given) || !mayCut(performance.now())) return false
  setLesson({ step, tries: 0, judged: null })
  return true
}
