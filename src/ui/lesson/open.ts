import { readLesson } from '../../lesson'
import { problemSentence } from '../../sitting'
import { setSession } from '../store'
import { setLesson, startLesson } from './lesson-store'

/** Opens the text of a lesson; what is wrong with it is told on the page of lessons, or in place of the readings. */
export function openLesson(name: string, text: string): boolean {
  const result = readLesson(text)
  if ('lesson' in result) {
    startLesson(result.lesson)
    return true
  }
  setSession({
    notice: { title: `${name} was not opened. Your present sitting is untouched.`, problems: result.problems },
    page: 'readings',
  })
  setLesson({ fault: `${name} was not opened. ${result.problems.slice(0, 3).map(problemSentence).join(' ')}` })
  return false
}
