import { CORNEA_CENTRE_MM, CORNEA_RADIUS_MM } from '../figure'
import { addScaled, cross, directionToWorld, dot, type Frame, normalize, type Vec3 } from '../space'
import type { RigFigure } from './types'

export type EyeName = 'eyeLeft' | 'eyeRight'

export const isEyeName = (name: string): name is EyeName => name === 'eyeLeft' || name === 'eyeRight'

/** An eyeball's own frame, world metres: its middle, its sight as z and the head's up square to it as y. */
export function eyeFrame({ posed }: RigFigure, name: EyeName): Frame {
  const side = name === 'eyeLeft' ? 'Left' : 'Right'
  const z = posed.landmarks[`pupil${side}`].normal
  const y = normalize(addScaled(posed.headUp, z, -dot(posed.headUp, z)))
  return { origin: posed.landmarks[`eyeCentre${side}`].position, x: cross(y, z), y, z }
}

/** Off the cornea, so that a ray from there does not meet the lashes' roots or the ball itself, m. */
const OFF_M = 5e-4

/** The place before the cornea from which all is seen that it mirrors: it is small against what stands about it. */
export const corneaTop = ({ origin, z }: Frame): Vec3 =>
  addScaled(origin, z, (CORNEA_CENTRE_MM + CORNEA_RADIUS_MM) / 1000 + OFF_M)

/** Of a unit normal of the cornea, in its square map: what shows beyond a right angle from the sight falls on its border. */
export const EYE_MAP_REACH = 0.7

/**
 * Where a look along the sight goes that is mirrored at a place of the cornea's map, unit, world. across, up: from −1 to 1, the
 * place's normal being (across, up)·EYE_MAP_REACH in the eye's frame. Twin: eyeMapAt in src/render/shaders/eye-map.glsl.
 */
export function eyeMapWay(frame: Frame, across: number, up: number): Vec3 {
  const [x, y] = [across * EYE_MAP_REACH, up * EYE_MAP_REACH]
  const z = Math.sqrt(1 - x * x - y * y)
  return directionToWorld(frame, [2 * z * x, 2 * z * y, 2 * z * z - 1])
}
