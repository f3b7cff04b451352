/**
 * figure: the sitter. In: the bytes of assets/sitter.glb, a shape and a pose. Out: meshes, paint and named places, in metres;
 * angles in degrees. sculptFigure makes the asset from its recipe, shapeFigure another person of it. Imports space.
 */

export { coarseVertices } from './coarse'
export { lidTone } from './eye-white'
export * from './gaze'
export * from './glasses/fields'
export { type LensPair, meetLens, onLens, outlineAt, outlineLevel, type SpectacleLens } from './glasses/lens'
export { wearGlasses } from './glasses/wear'
export { irisBehind } from './iris'
export * from './lean'
export { lidTurn } from './lids'
export * from './outline'
export * from './pose'
export * from './posture'
export * from './read'
export * from './regions'
export {
  CORNEA_CENTRE_Z as CORNEA_CENTRE_MM,
  CORNEA_EDGE as CORNEA_EDGE_MM,
  CORNEA_RADIUS as CORNEA_RADIUS_MM,
} from './sculpt/data/eye'
export type { Simplify } from './sculpt/part'
export { type SculptOptions, SHIPPED, SHIPPED_WORN, type WornOptions } from './sculpt/recipes'
export { HEAD_PIVOT_MM, sculptFigure, sculptWorn } from './sculpt/sculpt'
export { writeFigureGlb, writeWornGlb } from './sculpt/writeGlb'
export * from './shape/fields'
export * from './shape/presets'
export { shapeFigure } from './shape/shapeFigure'
export * from './strands'
export * from './types'
export { dressFigure } from './worn/dress'
export * from './worn/wear'
