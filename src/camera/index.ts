/**
 * camera: lens and exposure: how luminance becomes a picture value. In: luminance over the exposure in cd·s/m², lens
 * and sensor in millimetres, distances in metres. Out: picture values (1 = perfect white in metered light), pixels,
 * angles, depths. Imports photometry and space.
 */
export * from './depthOfField'
export * from './difference'
export * from './displayTransform'
export * from './dither'
export * from './fieldOfView'
export * from './fNumber'
export * from './framing'
export * from './framings'
export * from './greyed'
export * from './isolines'
export * from './plate'
export * from './projection'
export * from './sensor'
export * from './shutter'
export * from './spot'
export * from './stopsMap'
export * from './sync'
export * from './tally'
