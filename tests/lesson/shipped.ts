import { readdirSync, readFileSync } from 'node:fs'
import {
  cautionReadings,
  judgeAll,
  judgeParts,
  type Lesson,
  type Readings,
  readLesson,
  sittingOf,
  type TryStep,
} from '../../src/lesson'
import type { Reading } from '../../src/readings'
import { problemSentence, type Sitting } from '../../src/sitting'
import { take } from '../readings/set'

/** The lessons and faulty sets that come with the program, and readings of their states. */

export const FOLDERS = ['scenes/lessons', 'scenes/faults']
export const files = FOLDERS.flatMap((folder) => readdirSync(folder).map((name) => `${folder}/${name}`))

/** Lessons on bounced light: their states are traced; all others stand in dark rooms, where direct light tells. */
const TRACED: Readonly<Record<string, readonly string[]>> = {
  '02-size': ['octa 60 cm at 3 m', 'octa 60 cm at 1.5 m', 'the same at more power', 'octa 60 cm at 0.75 m'],
  '11-modifiers-compared': ['silver', 'white', 'silver, same power', 'white, same power'],
  '10-fill-and-ratio': ['no fill', 'white panel', 'silver panel'],
  '14-the-room': ['white room', 'black room', 'black panel'],
  '15-plan': ['plan'],
}
const PATHS = 64

export function open(file: string): Lesson {
  const result = readLesson(readFileSync(file, 'utf8'))
  if ('problems' in result)
    throw new Error(result.problems.map((problem) => `${file}: ${problemSentence(problem)}`).join('\n'))
  return result.lesson
}

const byLight = new Map<string, readonly Reading[]>()
/** Readings of equal sittings are taken once. */
function taken({ title: _, ...light }: Sitting, paths: number): readonly Reading[] {
  const key = JSON.stringify([light, paths])
  const known = byLight.get(key)
  if (known) return known
  const { readings, cautions } = take({ title: '', ...light }, paths)
  const found = [...readings, ...cautionReadings(cautions)]
  byLight.set(key, found)
  return found
}

const byState = new Map<string, readonly Reading[]>()
const tracedIn = (file: string): readonly string[] =>
  Object.entries(TRACED).find(([stem]) => file.includes(stem))?.[1] ?? []

/** own: the state that the learner's set is in, or that set itself. */
export const readingsIn =
  (lesson: Lesson, file: string, own?: string | Sitting): Readings =>
  (set) => {
    const name = set ?? own
    if (name === undefined) throw new Error(`${file}: a condition on the learner's own set outside a try`)
    const traced = tracedIn(file)
    if (typeof name !== 'string') return taken(name, traced.length > 0 ? PATHS : 0)
    const key = `${file} ${name}`
    const found = byState.get(key) ?? taken(sittingOf(lesson, name)!, traced.includes(name) ? PATHS : 0)
    byState.set(key, found)
    return found
  }

/** What of a try's goal the learner's own set misses: ids of readings, and 'only' where more was changed than may be. */
export function missedBy(
  lesson: Lesson,
  file: string,
  { goal = [], only, from }: TryStep,
  own: Sitting,
): readonly string[] {
  const verdicts = judgeAll(goal, readingsIn(lesson, file, own))!
  const parts = only ? judgeParts(only, sittingOf(lesson, from!)!, own).met : true
  return [...goal.flatMap(({ reading }, i) => (verdicts[i]!.met ? [] : [reading])), ...(parts ? [] : ['only'])]
}
