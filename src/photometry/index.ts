/**
 * photometry: quantities, laws, constants and radiance profiles as closed forms. In and out: SI, flash counted over
 * the burst. Sources in SOURCES.md. Imports space.
 */
export * from './chromaticity'
export * from './colourTemperature'
export * from './constants'
export * from './daylight'
export * from './disc'
export * from './emission'
export * from './exposure'
export * from './planck'
export * from './polygon'
export * from './primaries'
export * from './profiles'
export * from './rectangle'
export * from './srgb'
export * from './stops'
export * from './units'
export * from './whiteBalance'
