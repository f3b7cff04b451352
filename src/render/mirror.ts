import { type IUniform, Vector3, Vector4 } from 'three'
import { type Mirror, reflectedPoint } from '../rig'
import { dot, length, scale, type Vec3 } from '../space'
import type { Sphere } from './shadow-frustum'

/** A ball around the mirror. */
export const mirrorBall = ({ rect: { centre, halfU, halfV } }: Mirror): Sphere => ({
  centre,
  radiusM: Math.hypot(length(halfU), length(halfV)),
})

/** A ball as the mirror shows it. */
export const mirroredBall = (mirror: Mirror, { centre, radiusM }: Sphere): Sphere => ({
  centre: reflectedPoint(mirror, centre),
  radiusM,
})

/** As over-mirror.glsl asks for it. */
export function setMirror(uniforms: Record<string, IUniform>, { rect, normal, front, back }: Mirror): void {
  const half = (edge: Vec3) => new Vector4(...scale(edge, 1 / dot(edge, edge)), length(edge))
  uniforms.mirrorCentre.value = new Vector3(...rect.centre)
  uniforms.mirrorNormal.value = new Vector3(...normal)
  uniforms.mirrorU.value = half(rect.halfU)
  uniforms.mirrorV.value = half(rect.halfV)
  uniforms.mirrorFront.value = new Vector3(...(front ?? BLACK))
  uniforms.mirrorBack.value = new Vector3(...(back ?? BLACK))
}

const BLACK: Vec3 = [0, 0, 0]
