/**
 * photometry: quantities, laws, constants and radiance profiles as closed forms. In and out: SI, flash counted over
 * the burst. Sources in SOURCES.md. Imports space.
 */
export * from './constants'
export * from './disc'
export * from './emission'
export * from './exposure'
export * from './polygon'
export * from './profiles'
export * from './rectangle'
export * from './srgb'
export * from './stops'
export * from './units'
