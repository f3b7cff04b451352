import type { Rgb } from '../photometry'
import { isMirror, type Mirror, mirrorOf, type Rig, reflectedDirection } from '../rig'
import { addScaled, type Hit, type RayCaster, type Vec3 } from '../space'
import type { Element } from './elements'
import { type Layout, NO_ELEMENT } from './layout'

/**
 * A ray of a hit list that meets a mirror goes on, and the row notes what it meets there as a thing of its own: after the
 * elements and the number for what gives no light come the elements as they show in the mirror's front, then in its back.
 */
export const mirroredNumber = (element: number, side: 'front' | 'back', elements: number): number =>
  elements + 1 + (side === 'back' ? elements : 0) + element

/** Reflectances by which those stand, a band; null: nothing shows there. */
export function mirrorSides({ surfaces }: Pick<Rig, 'surfaces'>): readonly (Rgb | null)[] {
  const mirror = mirrorOf({ surfaces })
  return mirror ? [mirror.front, mirror.back] : []
}

/** Of each element that is a mirror, its side; undefined: it is none. */
export function mirrorElements(rig: Rig, { grids }: Pick<Layout, 'grids'>): ReadonlyMap<number, 'front' | 'back'> {
  const found = new Map<number, 'front' | 'back'>()
  for (const { surfaceId, side, first, columns, rows } of grids) {
    const surface = rig.surfaces.find(({ id }) => id === surfaceId)
    if (!surface || !isMirror(surface[side])) continue
    for (let i = first; i < first + columns * rows; i++) found.set(i, side)
  }
  return found
}

/** Metres by which a ray leaves the mirror that it met. */
const LIFT = 2e-4

/** Element that a ray meets after it has met the mirror: NO_ELEMENT the inside of a body, null nothing. */
export function beyondMirror(
  layout: Layout,
  caster: RayCaster,
  met: Vec3,
  { normal }: Hit,
  direction: Vec3,
): number | null {
  const from = addScaled(met, normal, LIFT)
  const onwards = reflectedDirection({ normal }, direction)
  const hit = caster.nearest(from, onwards)
  if (!hit) return null
  return layout.elementAt(hit.bodyIndex, hit.triangle, hit.fromBehind, addScaled(from, onwards, hit.distance), onwards)
}

/** The numbers of a list must fit its 16 bits. */
export function checkNumbers(elements: readonly Element[], mirror: Mirror | null): void {
  const numbers = mirror ? mirroredNumber(elements.length, 'back', elements.length) : elements.length
  if (numbers >= NO_ELEMENT)
    throw new Error(`bounce.layOut: ${numbers} patches and clusters, at most ${NO_ELEMENT - 1} fit a hit list`)
}
