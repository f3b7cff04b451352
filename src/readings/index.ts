/** readings: every number as a record with unit, band, place and reason; solve: a goal to edits. */
export * from './types'
