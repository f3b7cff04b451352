/**
 * lesson: a lesson as a document: a sitting, states of it by name, and steps predict, see, measure, explain, try. Rules by number in SPEC.md.
 * In: text of a file; readings of its states and what a learner gave. Out: a lesson, its sittings and prose, and what is right and by how much not.
 */
export * from './edits'
export * from './judge'
export { judgeParts, onlyWords, partsOf, partWords } from './parts'
export * from './prose'
export { isLesson, type LessonResult, readLesson } from './read'
export { readingName } from './reading-names'
export { reasonOf } from './reason'
export { lessonJsonSchema, lessonSchema } from './schema'
export { changedSitting, changesBetween, sittingOf } from './sets'
export * from './types'
export * from './write'
