import { distanceForFraming, FRAMINGS, type FramingName, fieldHeightAt, framingNamed } from '../../camera'
import { dot, normalize, subtract, type Vec3 } from '../../space'
import type { Sitting } from '../types'
import { setCamera } from './set'

/** Of the crown above the eyes, and of the clear space over it as a share of the field: common practice, no source. */
const CROWN_M = 0.12
const HEADROOM = 0.06
/** How far under the eyes the lens is held: at the eyes, the chest, the waist. Trade habit, no source. */
const LENS_UNDER_EYES_M: Readonly<Record<FramingName, number>> = {
  'tight head': 0,
  'head and shoulders': 0,
  'half length': 0.35,
  'three-quarter': 0.45,
  'full length': 0.6,
}

/** A tripod holds no lens lower, metres: common practice, no source. Matters where the eyes are lower than a standing adult's. */
const LOWEST_LENS_M = 0.2

/**
 * Puts the camera so that the frame takes in a named part of the first sitter: on the side where it stands, at the distance of
 * that field, the lens at its usual height (never under 0.2 m, nor aimed under the floor) and the
 * frame from a little over the crown downwards.
 */
export function setFraming(sitting: Sitting, name: FramingName): Sitting {
  const { camera, sitters } = sitting
  const eyes = sitters[0].eyeHeightM
  const [x, , z] = camera.positionM
  const level = Math.hypot(x, z)
  const [ux, uz] = level > 1e-6 ? [x / level, z / level] : [0, 1]
  const distance = distanceForFraming(name, camera.focalLengthMm, camera.sensorHeightMm)
  const height = Math.max(LOWEST_LENS_M, eyes - LENS_UNDER_EYES_M[name])
  const middle = Math.max(0, eyes + CROWN_M - (0.5 - HEADROOM) * FRAMINGS[name])
  return setCamera(sitting, {
    positionM: [rounded(ux * distance), rounded(height), rounded(uz * distance)],
    aimM: [0, rounded(middle), 0],
  })
}

const rounded = (metres: number): number => Math.round(metres * 1000) / 1000

/** The framing as it is, by the field's height in the plane of the first sitter's eyes; null: between the names. */
export function framingOf({ camera, sitters }: Sitting): FramingName | null {
  const eyes: Vec3 = [0, sitters[0].eyeHeightM, 0]
  const depth = dot(subtract(eyes, camera.positionM), normalize(subtract(camera.aimM, camera.positionM)))
  return framingNamed(fieldHeightAt(depth, camera.focalLengthMm, camera.sensorHeightMm))
}
