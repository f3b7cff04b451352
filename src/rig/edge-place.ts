import { add, addScaled, cross, dot, normalize, scale, subtract, type Vec3 } from '../space'
import { keyOf } from './meter-point'
import type { Rig, RigFigure, RigSource } from './types'

/** Where the key throws an edge worth a close look: from a flag onto the card behind it, else from the nose onto the cheek. */
export interface EdgePlace {
  readonly of: 'flag' | 'nose'
  readonly key: RigSource
  /** A point of the edge that casts; the direction along which what casts juts out there, unit. World. */
  readonly edge: Vec3
  readonly lean: Vec3
  /** Where light from the middle of the key past that point falls, and which way the surface faces there. */
  readonly at: Vec3
  readonly normal: Vec3
  /** From the edge to what is lit, along the light, metres: to the card where the ray meets it; to the cheek as the readings count it. */
  readonly gapM: number
}

type Posed = RigFigure['posed']

/** The nose's shadow falls on the cheek away from the light. towards: from the nose tip to the light. */
export function shadowCheek({ landmarks }: Posed, towards: Vec3): 'noseShadowCheekLeft' | 'noseShadowCheekRight' {
  const left = subtract(landmarks.eyeCentreLeft.position, landmarks.eyeCentreRight.position)
  return dot(towards, left) > 0 ? 'noseShadowCheekRight' : 'noseShadowCheekLeft'
}

/** null: no key, or none of its light passes such an edge onto what it faces. */
export function edgePlace(rig: Pick<Rig, 'sources' | 'surfaces' | 'figures'>): EdgePlace | null {
  const key = keyOf(rig)
  if (!key || key.remote?.kind === 'around') return null
  return flagEdge(rig.surfaces, key) ?? noseEdge(rig.figures[0], key)
}

/**
 * Where a close look at an edge goes: to the edge; under a sky, which stands all round and throws none, to where the nose would throw
 * it if the sky's mark were a lamp, so that such pictures lie beside each other. null: as edgePlace.
 */
export function closePlace(rig: Pick<Rig, 'sources' | 'surfaces' | 'figures'>): EdgePlace | null {
  const key = keyOf(rig)
  if (key?.remote?.kind !== 'around') return edgePlace(rig)
  return noseEdge(rig.figures[0], { ...key, frame: { ...key.frame, origin: key.remote.markM } })
}

function flagEdge(surfaces: Rig['surfaces'], key: RigSource): EdgePlace | null {
  const flag = surfaces.find(({ kind }) => kind === 'flag')
  const card = flag && surfaces.find(({ id }) => `${id}.flag` === flag.id)
  if (!flag || !card) return null
  const down = scale(flag.rect.halfV, -1)
  const { centre, halfU, halfV } = card.rect
  const front = normalize(cross(halfU, halfV))
  // Its other side may be the lit one.
  const normal = dot(front, subtract(key.frame.origin, centre)) < 0 ? scale(front, -1) : front
  return place('flag', key, add(flag.rect.centre, down), normalize(down), centre, normal)
}

function noseEdge(figure: RigFigure | undefined, key: RigSource): EdgePlace | null {
  if (!figure) return null
  const { landmarks, noseDirection } = figure.posed
  const tip = landmarks.noseTip.position
  const cheek = landmarks[shadowCheek(figure.posed, subtract(key.frame.origin, tip))]
  const found = place('nose', key, tip, noseDirection, cheek.position, cheek.normal)
  return found && { ...found, gapM: dot(subtract(tip, cheek.position), normalize(subtract(key.frame.origin, tip))) }
}

/** On the plane through a point of what is lit. */
function place(of: EdgePlace['of'], key: RigSource, edge: Vec3, lean: Vec3, on: Vec3, normal: Vec3): EdgePlace | null {
  const away = normalize(subtract(edge, key.frame.origin))
  const facing = -dot(away, normal)
  if (facing < LEAST_FACING) return null
  const gapM = dot(subtract(edge, on), normal) / facing
  return gapM > 0 ? { of, key, edge, lean, at: addScaled(edge, away, gapM), normal, gapM } : null
}
/** Light that grazes more than this throws its edge too far to look at. */
const LEAST_FACING = 0.1
