import { pretty, problemSentence } from '../sitting'
import { readLesson } from './read'
import type { Lesson } from './types'

/**
 * The text of a lesson file, as that of a sitting: known fields in the order of the schema, unknown ones after them. Throws on a lesson
 * that could not be read back, for such a file would be lost work.
 */
export function writeLesson(lesson: Lesson): string {
  const result = readLesson(lesson)
  if ('problems' in result) throw new Error(`lesson.writeLesson: ${result.problems.map(problemSentence).join(' ')}`)
  return `${pretty(result.lesson, '')}\n`
}
