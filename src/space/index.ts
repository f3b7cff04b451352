/**
 * space: points, frames, rays, rectangles, meshes, low-discrepancy sequences, and what a ray caster promises.
 * In and out: plain tuples and typed arrays in metres and radians (degrees only where a name says so). Imports nothing.
 */
export * from './raycaster'
export * from './sobol'
export * from './tessellate'
export * from './triangle'
export * from './types'
export * from './vec3'
