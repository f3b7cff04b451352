import { openLesson } from './open'

/** Texts of the lessons that come with the program, each fetched when it is opened. */
const lessons = import.meta.glob<string>('../../../scenes/lessons/*.lesson.json', { query: '?raw', import: 'default' })
const faults = import.meta.glob<string>('../../../scenes/faults/*.lesson.json', { query: '?raw', import: 'default' })

export interface Entry {
  readonly number: number | null
  /** By its file: '02-size-makes-softness' reads 'Size makes softness'. */
  readonly title: string
  open(): Promise<void>
}

const entriesOf = (texts: Readonly<Record<string, () => Promise<string>>>): readonly Entry[] =>
  Object.entries(texts).map(([path, load]) => {
    const stem = path.replace(/^.*\//, '').replace('.lesson.json', '')
    const [, number, words] = /^(?:(\d+)-)?(.*)$/.exec(stem)!
    return {
      number: number ? Number(number) : null,
      title: `${words![0]!.toUpperCase()}${words!.slice(1).replaceAll('-', ' ')}`,
      open: async () => {
        openLesson(stem, await load())
      },
    }
  })

export const COURSE = entriesOf(lessons)
export const FAULTS = entriesOf(faults)
