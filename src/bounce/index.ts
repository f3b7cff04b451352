/**
 * bounce: radiosity by hit lists. In: a rig, and a ray caster over bounceScene(rig).bodies; out: per source one vector of
 * indirect irradiance over patches and vertices, 1/m² at 1 cd·s of axial intensity and in the source's own colour.
 */
export { type Bounce, bounceSteps, createBounce, finish, type ValidShares } from './bounce'
export * from './quality'
export { type BodyOwner, type BounceScene, bounceScene } from './scene'
export * from './types'
