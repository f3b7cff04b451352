/**
 * sitting: the document: schema, version, migrations, edits, history. SI with unit suffixes; rules by number in SPEC.md.
 * In: text of a file, or a sitting and what to change. Out: a sitting, its text, or problems a photographer can act on.
 */
export * from './carried'
export * from './edits'
export * from './first'
export { problemsOfGels } from './gel'
export * from './history'
export { HOOD_RANGES } from './hood'
export * from './json-schema'
export { CURRENT_VERSION, type FileKind, FORMAT, MIGRATIONS, type Migration, migrate } from './migrate'
export { hasMirror } from './mirror-rule'
export * from './place'
export * from './pose'
export { EditRefused, type Problem, problemSentence, problemsOfSchema, shown } from './problems'
export * as leaves from './quantity'
export * from './read'
export { PANEL_CLOTHS, sittingSchema } from './schema'
export { calibrationFacts, headFacts, modifierSchema, standFacts } from './source-schema'
export * from './types'
export { panelWords, RE_EXPOSE_WORDS } from './words'
export * from './write'
