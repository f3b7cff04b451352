/**
 * kit: what the user owns: heads, modifiers, stands, own calibrations. Rules by number in SPEC.md.
 * In: text of a file, or a kit and what to change. Out: a kit, its text, problems; or a sitting with copies of its entries.
 */
export * from './edits'
export * from './merge'
export { isKit, type KitResult, readKit } from './read'
export { kitJsonSchema, kitSchema } from './schema'
export type * from './types'
export * from './use'
export * from './write'
