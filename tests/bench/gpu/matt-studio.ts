import { type FigureAsset, type PartName, poseFigure } from '../../../src/figure'
import type { Rig, RigFigure, Surface, View } from '../../../src/rig'
import { addScaled, frameTowards, normalize, type Vec3 } from '../../../src/space'
import { lamp, SURFACES } from '../../render/rigs'

/**
 * A set that any renderer can be asked for: the sitter in one matt grey, a matt wall and a matt floor, one uniform lit
 * face at 1 m from the eyes. World metres.
 */
export type LampName = keyof typeof SURFACES
const ALBEDO = 0.5
export const EYES: Vec3 = [0, 1.2, 0]
/** From the eyes: 42° to camera right and 27° up. */
const TO_LAMP = normalize([0.6, 0.45, 0.66])

const view: View = {
  frame: frameTowards([0.013, 1.22, 1.5], [0, 1.14, 0]),
  focalLengthMm: 75,
  sensorWidthMm: 36,
  sensorHeightMm: 27,
  fNumber: 8,
  iso: 100,
  shutterS: 1 / 125,
}

const matt = (id: string, kind: Surface['kind'], centre: Vec3, halfU: Vec3, halfV: Vec3): Surface => ({
  id,
  kind,
  rect: { centre, halfU, halfV },
  front: { kind: 'matt', albedo: [ALBEDO, ALBEDO, ALBEDO] },
  back: null,
})
const wall = matt('wall', 'wall', [0, 1.2, -0.8], [1.5, 0, 0], [0, 1.2, 0])
/** High enough to be in the picture, and forward to below its lower edge, so that no light can pass beneath it. */
const floor = matt('floor', 'floor', [0, 0.86, -0.1], [1.5, 0, 0], [0, 0, -0.7])

export type Head = Readonly<Record<'headTurnDeg' | 'headTiltDeg' | 'chinDeg', number>>

/** Every part counts as matt cloth: eyes would mirror and skin would shine. Each has a name of its own, by which bounced light finds it. */
export function mattSitter(asset: FigureAsset, head: Partial<Head> = {}): RigFigure {
  const pose = { positionM: [0, 0, 0], eyeHeightM: EYES[1], bodyTurnDeg: 0 } as const
  const posed = poseFigure(asset, { ...pose, headTurnDeg: 15, headTiltDeg: 0, chinDeg: 0, ...head })
  const tone: Vec3 = [ALBEDO, ALBEDO, ALBEDO]
  const plain = { skin: tone, eyeLeft: tone, eyeRight: tone, hair: tone, garment: tone, headwear: tone, glasses: tone }
  const names = posed.parts.map(({ name }) => `matt ${name}` as PartName)
  const parts = posed.parts.map((one, i) => ({
    ...one,
    name: names[i],
    part: { ...one.part, combed: undefined, tint: new Float32Array(one.mesh.positions.length).fill(1) },
    combed: undefined,
  }))
  return {
    id: 'sitter',
    posed: { ...posed, parts },
    albedo: { ...plain, ...Object.fromEntries(names.map((name) => [name, tone])) },
    skinF0: 0,
    skinRoughness: 0,
  }
}

export const mattStudio = (asset: FigureAsset, name: LampName): Rig => ({
  sources: [lamp('A', SURFACES[name], addScaled(EYES, TO_LAMP, 1), EYES)],
  surfaces: [wall, floor],
  balls: [],
  figures: [mattSitter(asset)],
  view,
})

/** The same lit face straight before a bare wall at 1 m, seen from beside it: irradiance on the axis is a closed form. */
export function bareWall(name: LampName): Rig {
  const centre: Vec3 = [0, 1.2, 0.2]
  const aim: Vec3 = [0, 1.2, -0.8]
  return {
    sources: [lamp('A', SURFACES[name], centre, aim)],
    surfaces: [wall],
    balls: [],
    figures: [],
    view: { ...view, frame: frameTowards([0.9, 1.2, 0.6], aim) },
  }
}

export { ALBEDO, SURFACES }
