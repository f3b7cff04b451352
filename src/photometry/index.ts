/**
 * photometry: quantities, laws, constants and radiance profiles as closed forms. In and out: SI, flash counted over
 * the burst. Sources in SOURCES.md. Imports space.
 */
export * from './emission'
export * from './profiles'
export * from './units'
