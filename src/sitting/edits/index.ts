/** Edits: pure functions (sitting, …) → a new sitting. What an edit does not touch stays the same object. */
export * from './glasses'
export * from './mirror'
export * from './pose'
export * from './set'
export * from './sitter'
export * from './source'
export * from './takes'
export * from './things'
