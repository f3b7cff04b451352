import type { FigureAsset } from '../../../src/figure'
import type { Material, Rig, Surface, View } from '../../../src/rig'
import { addScaled, frameTowards, radians, type Vec3 } from '../../../src/space'
import { board, matt, room } from '../../bounce/fixtures'
import { lamp, SURFACES } from '../../render/rigs'
import { EYES, type Head, mattSitter } from '../gpu/matt-studio'

/** The rooms that the bounce is held against a path tracer in: none of them, nor a pose or key, was used to choose its settings. */
const PALE = (name: string): Material => matt(name === 'floor' ? 0.4 : name === 'ceiling' ? 0.8 : 0.7)
const BOX = (name: string): Material =>
  name === 'left' ? matt(0.6, 0.1, 0.08) : name === 'right' ? matt(0.12, 0.45, 0.15) : matt(0.6)
const SMALL: Vec3 = [3.5, 2.4, 3]
const besideFace = (front: Material): Surface => board('panel', [-0.7, 1.2, 0.1], [0, 1.2, 0], 1, 1.2, front)

const SETS = {
  box: () => room([2.6, 2.4, 3], BOX),
  pale: () => room(SMALL, PALE),
  'dark-white': () => [...room(SMALL, () => matt(0.04)), besideFace(matt(0.85))],
  'dark-silver': () => [
    ...room(SMALL, () => matt(0.04)),
    besideFace({ kind: 'metal', f0: [0.88, 0.88, 0.88], roughness: 0.3 }),
  ],
  'red-backdrop': () => [
    ...room(SMALL, PALE),
    { ...board('backdrop', [0, 1.2, -0.5], [0, 1.2, 0], 2.7, 2.38, matt(0.6, 0.06, 0.05)), kind: 'backdrop' as const },
  ],
} as const satisfies Record<string, () => readonly Surface[]>

export type SetName = keyof typeof SETS

const POSES: readonly Head[] = [
  { headTurnDeg: 0, headTiltDeg: 0, chinDeg: 0 },
  { headTurnDeg: 28, headTiltDeg: -6, chinDeg: -8 },
  { headTurnDeg: -42, headTiltDeg: 5, chinDeg: 7 },
]

/** Degrees round from the lens and up from the eyes, metres from them: all outside the frame. */
const KEYS = [
  { round: 60, up: 20, far: 1.1 },
  { round: -35, up: 45, far: 1.2 },
  { round: 100, up: 10, far: 1.05 },
] as const

const view: View = {
  frame: frameTowards([0.013, 1.22, 1.4], [0, 1.14, 0]),
  focalLengthMm: 70,
  sensorWidthMm: 36,
  sensorHeightMm: 27,
  fNumber: 8,
  iso: 100,
  shutterS: 1 / 125,
}

export function roomRig(asset: FigureAsset, set: SetName, pose: number, key: number): Rig {
  const { round, up, far } = KEYS[key]
  const [a, e] = [radians(round), radians(up)]
  const way: Vec3 = [Math.cos(e) * Math.sin(a), Math.sin(e), Math.cos(e) * Math.cos(a)]
  return {
    sources: [lamp('A', SURFACES.disc, addScaled(EYES, way, far), EYES)],
    surfaces: SETS[set](),
    balls: [],
    figures: [mattSitter(asset, POSES[pose])],
    view,
  }
}
