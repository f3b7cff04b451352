import type { Lesson } from '../../lesson'
export function Handout({ lesson }: { lesson: Lesson }) {
  return <p>{lesson.title}</p>
}
