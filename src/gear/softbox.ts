import { BARE_DOME_FLUX, boxProfile, boxTransmittance, lobeTable, sphereMultiplier } from '../photometry'
import { BLACK, BOX_CLOTH, grey } from './cloths'
import { length, numberOf, share } from './fields'
import { ahead, asSolids, BODY_RADIUS_M, inCentimetres } from './head'
import type { GearSolid } from './solids'
import type { BuiltModifier, Field, Modifier, ModifierKind } from './types'

/** Side of the plate at the back, where the rods meet: common practice, no source. */
const BACK_PLATE_M = 0.15
const FORWARD_EXPONENT = 11

/** Lit face: the front cloth. One cloth, silver lining, lamp under a bare dome. */
export const softBox: ModifierKind = {
  id: 'softbox',
  label: 'Softbox, one cloth',
  fields: boxFields([0.6, 0.9, 0.4], [0.4, 1.2]),
  build: (modifier) => box(modifier, 'softbox'),
}

export const stripBox: ModifierKind = {
  id: 'strip',
  label: 'Strip box, one cloth',
  fields: boxFields([0.3, 1.2, 0.35], [0.22, 1.4]),
  build: (modifier) => box(modifier, 'strip box'),
}

function boxFields(
  [width, height, depth]: readonly [number, number, number],
  usual: readonly [number, number],
): Field[] {
  return [
    length('widthM', 'Width of the front cloth', width, [0.2, 2], usual),
    length('heightM', 'Height of the front cloth', height, [0.2, 2], usual),
    length('depthM', 'Depth from the back plate to the cloth', depth, [0.15, 0.8], [0.3, 0.6]),
    share('forwardShare', 'Share of the light that keeps its direction', 0, [0, 0.4]),
    length('bodyM', 'Length of the head behind the box', 0.3, [0, 0.6], [0.2, 0.45]),
  ]
}

function box(modifier: Modifier, words: string): BuiltModifier {
  const widthM = numberOf(modifier, 'widthM')
  const heightM = numberOf(modifier, 'heightM')
  const depthM = numberOf(modifier, 'depthM')
  const bodyM = numberOf(modifier, 'bodyM')
  const size = { widthM, heightM, depthM, backM: BACK_PLATE_M }
  const emission = lobeTable({
    surface: { shape: 'rectangle', widthM, heightM },
    relative: boxProfile(depthM),
    flux: BARE_DOME_FLUX * boxTransmittance(size),
    forward: {
      share: numberOf(modifier, 'forwardShare'),
      exponent: FORWARD_EXPONENT,
      lamp: [0, 0, -depthM],
    },
  })
  return {
    emitters: [{ id: 'cloth', part: 'front', frame: ahead(0), emission, cloth: { solid: 0, side: 'front' } }],
    solids: [...shell(widthM, heightM, depthM), ...head(depthM, bodyM)],
    litFace: { shape: 'rectangle', widthM, heightM },
    tint: [1, 1, 1],
    name: `${words} ${Math.round(widthM * 100)} × ${inCentimetres(heightM)}`,
  }
}

/** The back of the box as light from elsewhere meets it: its front outline just behind the cloth, and the back plate. */
function shell(widthM: number, heightM: number, depthM: number): GearSolid[] {
  const across = (centreZ: number, w: number, h: number, albedo = BLACK): GearSolid => ({
    kind: 'rectangle',
    rect: { centre: [0, 0, centreZ], halfU: [w / 2, 0, 0], halfV: [0, h / 2, 0] },
    albedo,
    back: { kind: 'matt', albedo: BLACK },
  })
  const middle = (a: number, b: number) => (a + b) / 2
  return [
    across(-0.002, widthM, heightM, grey(boxReflectance(widthM, heightM, depthM))),
    across(-depthM / 2, middle(widthM, BACK_PLATE_M), middle(heightM, BACK_PLATE_M)),
    across(-depthM, BACK_PLATE_M, BACK_PLATE_M),
  ]
}

/** Of the front cloth before its lining: what the cloth throws back, and what passes it twice by way of the lining. */
function boxReflectance(widthM: number, heightM: number, depthM: number): number {
  const { transmittance, reflectance, lining } = BOX_CLOTH
  const front = widthM * heightM
  const walls = depthM * (widthM + heightM + 2 * BACK_PLATE_M) + BACK_PLATE_M ** 2
  const open = front / (front + walls)
  const inside = open * sphereMultiplier(lining, open)
  return reflectance + (transmittance ** 2 * inside) / (1 - reflectance * inside)
}

const head = (depthM: number, bodyM: number): readonly GearSolid[] =>
  bodyM > 0 ? asSolids([{ from: [0, 0, -depthM], to: [0, 0, -depthM - bodyM], radiusM: BODY_RADIUS_M }]) : []
