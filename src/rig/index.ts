/** rig: a sitting and its shapes in; emitters, surfaces and the view out, in world metres. The narrow waist. */
export * from './types'
