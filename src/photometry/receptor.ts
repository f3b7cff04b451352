import type { Radians } from './units'

/**
 * Response of an incident meter's receptor to a small source at an angle from its axis, 1 on the axis. Hemisphere: the
 * ideal cardioid, (1 + cos t)/2 [ISO2720]; real domes come close. Flat disc: the cosine of illuminance itself.
 */
export const domeResponse = (angle: Radians): number => (1 + Math.cos(angle)) / 2
export const discResponse = (angle: Radians): number => Math.max(0, Math.cos(angle))
