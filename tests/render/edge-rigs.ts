import { buildModifier, defaultModifier, type Modifier } from '../../src/gear'
import type { Rig, RigSource, View } from '../../src/rig'
import { objectParts } from '../../src/rig/set'
import { placeSource, rigSource } from '../../src/rig/source'
import { addObject, firstSitting } from '../../src/sitting'
import { frameTowards, type Vec3 } from '../../src/space'
import { lamp } from './rigs'

/** A straight flag before a card, lit square on: what the shadow's edge is measured on. */

/** Height of the card's middle, where the flag's edge runs level. */
export const EDGE_M = 1.2
/** Of the uniform sources, across the edge. */
export const WIDTH_M = 0.5

/** Shaft and head of the figures that the test compares with: a dish and no body behind it. */
const umbrella = (kind: string) => ({ ...defaultModifier(kind), shaftM: 0.45, bodyM: 0 })
const withModifier = (kind: string, centreM: Vec3, modifier: Modifier = umbrella(kind)): RigSource => {
  const source = { ...firstSitting().sources[0], modifier, centreM, aimM: [0, EDGE_M, 0] as Vec3 }
  return rigSource(source, placeSource(source, buildModifier(source.modifier)), firstSitting().camera)
}

const disc = { shape: 'disc', radiusM: WIDTH_M / 2 } as const
const square = { shape: 'rectangle', widthM: WIDTH_M, heightM: WIDTH_M } as const
const straightOn: Vec3 = [0, EDGE_M, 0]

/** By the centre of the lit face. */
const EDGE_SOURCES = {
  'uniform disc': (at: Vec3) => lamp('key', disc, at, straightOn),
  'uniform square': (at: Vec3) => lamp('key', square, at, straightOn),
  'silver umbrella': (at: Vec3) => withModifier('silver-umbrella', at),
  'white umbrella': (at: Vec3) => withModifier('white-umbrella', at),
  'shoot-through umbrella': (at: Vec3) => withModifier('shoot-through-umbrella', at),
  sun: (at: Vec3) => withModifier('sun', at, defaultModifier('sun')),
} as const
export type EdgeSourceName = keyof typeof EDGE_SOURCES

/**
 * The lens stands square to the card and so close that it looks up behind the flag: level with the foot of the picture,
 * `BELOW_M` under the edge, it sees the card to BELOW_M·gap/(AWAY_M − gap) = 22 mm above the edge.
 */
const AWAY_M = 0.06
const BELOW_M = 0.031
export const PICTURE = { width: 2, height: 430, pitchM: 0.25e-3 }

const view: View = {
  frame: frameTowards([0, EDGE_M - BELOW_M, AWAY_M], [0, EDGE_M - BELOW_M, 0]),
  focalLengthMm: 60,
  sensorWidthMm: PICTURE.width * PICTURE.pitchM * 1000,
  sensorHeightMm: PICTURE.height * PICTURE.pitchM * 1000,
  fNumber: 8,
  iso: 100,
  shutterS: 1 / 125,
}

/** Height of a row's middle above the flag's edge on the card, metres; rows from the top. */
export const aboveEdgeM = (row: number): number => (PICTURE.height / 2 - row - 0.5) * PICTURE.pitchM - BELOW_M

/** Sunlight has an edge of a hundredth of the gap: so far before the card stands its flag, behind the lens. */
const SUN_GAP_M = 0.5

/** distanceM: from the card to the centre of the lit face. */
export function edgeRig(name: EdgeSourceName, distanceM: number, withFlag: boolean) {
  const { sitting, id } = addObject(firstSitting(), 'flag-before-card')
  const object = sitting.objects.find((thing) => thing.id === id)
  if (object?.kind !== 'flag-before-card') throw new Error('edgeRig: the added object is no flag before a card')
  const gapM = name === 'sun' ? SUN_GAP_M : object.gapM
  const { surfaces } = objectParts({ ...object, gapM, centreM: [0, EDGE_M, 0] })
  const rig: Rig = {
    sources: [EDGE_SOURCES[name]([0, EDGE_M, distanceM])],
    surfaces: surfaces.filter(({ kind }) => withFlag || kind !== 'flag'),
    balls: [],
    figures: [],
    view,
  }
  return { rig, gapM, edge: [0, EDGE_M, gapM] as Vec3 }
}
