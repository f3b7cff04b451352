/** rig: a sitting and its shapes in; emitters, surfaces and the view out, in world metres. The narrow waist. */

export { finishOf } from '../gear'
export * from './assemble'
export { type Cheek, farCheek, nearCheek, placeLandmarks, wearOf } from './figure'
export * from './lit-face'
export * from './look'
export * from './meter-point'
export { shapeFault } from './shape'
export { IRIS } from './skin'
export * from './solid-grid'
export { solidMesh } from './solid-mesh'
export { axialIntensity } from './source'
export * from './types'
