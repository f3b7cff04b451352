/**
 * render: progressive many-light renderer: a rig and its bounce → one layer of light a source → the picture, or, with
 * probes, values. In: world metres. Out: layers in 1/m² per 1 cd·s of axial intensity; linear picture values (1 =
 * perfect white in metered light); sRGB bytes. Imports bounce, rig, camera, photometry, space and three.
 */

export { MAX_SOURCES } from './layouts'
export type { PictureOptions, Progress } from './picture-options'
export { PictureRenderer } from './picture-renderer'
export type { ProbeReading } from './probe-pass'
export type { Probe } from './probes'
export { type ReExposure, recombinationOf } from './recombination'
export type { Recombination, SourceWeight } from './recombine'
export { describeSupport } from './support'
