import type { Lesson } from '../../lesson'
import { openLesson } from './open'

/** Texts of the lessons that come with the program, each fetched when it is opened. */
const lessons = import.meta.glob<string>('../../../scenes/lessons/*.lesson.json', { query: '?raw', import: 'default' })
const faults = import.meta.glob<string>('../../../scenes/faults/*.lesson.json', { query: '?raw', import: 'default' })

/** What they are called: of a faulty set its question, which does not give the fault away as the name of its file would. */
const lessonTitles = import.meta.glob<string>('../../../scenes/lessons/*.lesson.json', { import: 'title', eager: true })
const faultTitles = import.meta.glob<string>('../../../scenes/faults/*.lesson.json', { import: 'title', eager: true })

/** The question that a lesson of the course answers; a faulty set's title is one. */
const lessonAnswers = import.meta.glob<string>('../../../scenes/lessons/*.lesson.json', {
  import: 'answers',
  eager: true,
})

export interface Entry {
  readonly number: number | null
  readonly title: string
  /** The question that it answers; null: its title says it. */
  readonly answers: string | null
  open(): Promise<void>
}

const entriesOf = (
  texts: Readonly<Record<string, () => Promise<string>>>,
  titles: Readonly<Record<string, string>>,
  answers: Readonly<Record<string, string>>,
): readonly Entry[] =>
  Object.entries(texts).map(([path, load]) => {
    const stem = path.replace(/^.*\//, '').replace('.lesson.json', '')
    const number = /^\d+/.exec(stem)?.[0]
    return {
      number: number ? Number(number) : null,
      title: titles[path]!,
      answers: answers[path] ?? null,
      open: async () => {
        openLesson(stem, await load())
      },
    }
  })

export const COURSE = entriesOf(lessons, lessonTitles, lessonAnswers)
export const FAULTS = entriesOf(faults, faultTitles, {})

/** Lessons on one thing that the course has apart, by their numbers. */
const FAMILIES: readonly { readonly on: string; readonly numbers: readonly number[] }[] = [
  { on: 'soft and hard edges', numbers: [2, 3, 11] },
  { on: 'what fills a shadow', numbers: [10, 14] },
]

/** Another lesson on the same thing, the next of them and after the last the first; null: there is none, or it follows anyway. */
export function kinOf(lesson: Pick<Lesson, 'title'>): { readonly on: string; readonly entry: Entry } | null {
  const own = COURSE.find(({ title }) => title === lesson.title)?.number ?? -1
  const family = FAMILIES.find(({ numbers }) => numbers.includes(own))
  if (!family) return null
  const at = family.numbers.indexOf(own)
  const number = family.numbers[(at + 1) % family.numbers.length]
  const entry = COURSE.find((other) => other.number === number)
  return entry && entry !== nextAfter(lesson) ? { on: family.on, entry } : null
}

/** What follows it in the course, or among the faulty sets; null: it is the last, or in neither. */
export function nextAfter({ title }: Pick<Lesson, 'title'>): Entry | null {
  const list = [COURSE, FAULTS].find((entries) => entries.some((entry) => entry.title === title)) ?? []
  return list[list.findIndex((entry) => entry.title === title) + 1] ?? null
}
