/** gear: everything carried into the room: one kind per file with its field table and its emission. Local frames, metres. */
export { type MeasuredLuminaire, measuredFigures, measuredModifier } from './measured-lamp'
export { modellingCandela } from './modelling-lamp'
export * from './registry'
export * from './solids'
export * from './types'
