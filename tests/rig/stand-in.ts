import {
  type FigureAsset,
  type FigurePart,
  LANDMARK_NAMES,
  type Landmark,
  type LandmarkName,
  PART_NAMES,
} from '../../src/figure'
import type { Vec3 } from '../../src/space'

/**
 * A figure of one tetrahedron a part, with the places that matter here: enough to see where things go, and quick.
 * Millimetres of a standard head, mirrored to the right; places not named here are put on the bridge of the nose.
 */
const PLACES: Partial<Record<LandmarkName, Vec3>> = {
  cheekLeft: [51, -16, 2.2],
  cheekRight: [-51, -16, 2.2],
  crown: [0, 113.5, -82],
  noseTip: [0, -35.5, 41.2],
  foreheadCentre: [0, 42, 24.7],
  chin: [0, -96.5, 22],
}

const landmark = (name: LandmarkName): Landmark => {
  const [x, y, z] = PLACES[name] ?? [0, 3.8, 21.1]
  return { position: [x / 1000, y / 1000, z / 1000], normal: [0, 0, 1], headWeight: 1 }
}

const part = (name: FigurePart['name'], i: number): FigurePart => {
  const corners = [0, 0, 0, 0.05, 0, 0, 0, 0.05, 0, 0, 0, 0.05].map((value) => value - 0.02 * i)
  const indices = Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3)
  return {
    name,
    mesh: {
      positions: Float32Array.from(corners),
      normals: Float32Array.of(-1, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1),
      indices,
    },
    tint: new Float32Array(12).fill(1),
    headWeight: new Float32Array(4).fill(name === 'garment' ? 0 : 1),
    proxyIndices: indices,
    proxyCorners: Uint32Array.from({ length: 12 }, (_, corner) => Math.floor(corner / 3)),
    proxyWeights: Float32Array.from({ length: 12 }, (_, corner) => (corner % 3 === 0 ? 1 : 0)),
  }
}

export const STAND_IN: FigureAsset = {
  parts: PART_NAMES.map(part),
  landmarks: Object.fromEntries(LANDMARK_NAMES.map((name) => [name, landmark(name)])) as FigureAsset['landmarks'],
  headPivot: [0, -0.035, -0.075],
}
