import { fresnel } from './fresnel'
import type { Radians } from './units'

/** Of common lens plastic (CR-39 is 1.498) and crown glass (1.523), near enough. From memory. */
export const LENS_INDEX = 1.5

/**
 * Of a surface with a coating against reflections, straight on: such coatings leave less than 0.5 % a surface, a plain one
 * 4 % (makers' figures; no standard was read). The tint of what is left is neglected.
 */
export const COATED_REFLECTANCE = 0.005

/** Of one surface; a coating is made for light that comes straight on, and towards grazing mirrors as any surface does. */
export const lensSurfaceReflectance = (incidence: Radians, isCoated: boolean): number =>
  isCoated
    ? COATED_REFLECTANCE + (1 - COATED_REFLECTANCE) * (1 - Math.cos(incidence)) ** 5
    : fresnel(LENS_INDEX, incidence)

/** Of a lens with two like surfaces, light going to and fro between them counted, without phase: 2r/(1 + r). The rest passes. */
export function lensReflectance(incidence: Radians, isCoated: boolean): number {
  const r = lensSurfaceReflectance(incidence, isCoated)
  return (2 * r) / (1 + r)
}
