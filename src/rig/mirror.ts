import type { Rgb } from '../photometry'
import { addScaled, cross, dot, normalize, type Rect, subtract, type Vec3 } from '../space'
import type { Material, Surface } from './types'

/** The mirror-smooth board of a set: the laws of the flat mirror, shared by all that follow light over it. World metres. */
export interface Mirror {
  readonly surfaceId: string
  readonly rect: Rect
  /** Unit, out of the front. */
  readonly normal: Vec3
  /** Reflectance of each side, a band; null: that side is no mirror. */
  readonly front: Rgb | null
  readonly back: Rgb | null
}

type Smooth = Extract<Material, { kind: 'metal' }> & { readonly roughness: 0 }

export const isMirror = (material: Material | null): material is Smooth =>
  material?.kind === 'metal' && material.roughness === 0

const known = new WeakMap<readonly Surface[], Mirror | null>()

/** A set has one at most (rule S20 of the document), so no light goes from mirror to mirror. */
export function mirrorOf({ surfaces }: { readonly surfaces: readonly Surface[] }): Mirror | null {
  const before = known.get(surfaces)
  if (before !== undefined) return before
  const surface = surfaces.find(({ front, back }) => isMirror(front) || isMirror(back))
  const mirror = surface ? mirrorFrom(surface) : null
  known.set(surfaces, mirror)
  return mirror
}

const mirrorFrom = ({ id, rect, front, back }: Surface): Mirror => ({
  surfaceId: id,
  rect,
  normal: normalize(cross(rect.halfU, rect.halfV)),
  front: isMirror(front) ? front.f0 : null,
  back: isMirror(back) ? back.f0 : null,
})

const heightOver = ({ rect, normal }: Mirror, place: Vec3): number => dot(subtract(place, rect.centre), normal)

export const reflectedPoint = (mirror: Mirror, place: Vec3): Vec3 =>
  addScaled(place, mirror.normal, -2 * heightOver(mirror, place))

export const reflectedDirection = ({ normal }: Pick<Mirror, 'normal'>, direction: Vec3): Vec3 =>
  addScaled(direction, normal, -2 * dot(direction, normal))

/** Reflectance of the side that a place looks at, a band; null: no mirror. */
export const mirrorSide = (mirror: Mirror, place: Vec3): Rgb | null =>
  heightOver(mirror, place) > 0 ? mirror.front : mirror.back

/** Where light from a lit point meets the mirror on its way to a place; null: it passes beside it, or the two are on different sides. */
export function mirrorMeets(mirror: Mirror, place: Vec3, lit: Vec3): Vec3 | null {
  const [a, b] = [heightOver(mirror, place), heightOver(mirror, lit)]
  if (!(a * b > 0)) return null
  const image = addScaled(place, mirror.normal, -2 * a)
  const met = addScaled(image, subtract(lit, image), a / (a + b))
  const from = subtract(met, mirror.rect.centre)
  return [mirror.rect.halfU, mirror.rect.halfV].every((half) => Math.abs(dot(from, half)) <= dot(half, half))
    ? met
    : null
}
