import { type Bounce, bounceScene, createBounce, type ListQuality } from '../../src/bounce'
import type { Rgb } from '../../src/photometry'
import { uniformSurface } from '../../src/photometry'
import { createRayCaster } from '../../src/rays'
import type { Material, Rig, RigFigure, RigSource, Surface, View } from '../../src/rig'
import { ballMesh, frameTowards, type Vec3 } from '../../src/space'
import { resting } from '../figure/resting'

export const VIEW: View = {
  frame: frameTowards([0, 1.2, 1.5], [0, 1.2, 0]),
  focalLengthMm: 85,
  sensorWidthMm: 24,
  sensorHeightMm: 36,
  fNumber: 8,
  iso: 100,
  shutterS: 1 / 125,
}

export const matt = (...albedo: [number] | [number, number, number]): Material => ({
  kind: 'matt',
  albedo: (albedo.length === 1 ? [albedo[0], albedo[0], albedo[0]] : albedo) as Rgb,
})

/** A room on the floor y = 0, its middle over the origin: six one-sided surfaces, fronts inwards. */
export function room([w, h, d]: Vec3, paint: (name: string) => Material): readonly Surface[] {
  const [x, y, z] = [w / 2, h / 2, d / 2]
  const side = (id: string, kind: Surface['kind'], centre: Vec3, halfU: Vec3, halfV: Vec3): Surface => ({
    id,
    kind,
    rect: { centre, halfU, halfV },
    front: paint(id),
    back: null,
  })
  return [
    side('floor', 'floor', [0, 0, 0], [0, 0, z], [x, 0, 0]),
    side('ceiling', 'ceiling', [0, h, 0], [x, 0, 0], [0, 0, z]),
    side('left', 'wall', [-x, y, 0], [0, 0, -z], [0, y, 0]),
    side('right', 'wall', [x, y, 0], [0, 0, z], [0, y, 0]),
    side('back', 'wall', [0, y, -z], [x, 0, 0], [0, y, 0]),
    side('front', 'wall', [0, y, z], [-x, 0, 0], [0, y, 0]),
  ]
}

/** A board with two sides whose front looks along towards. */
export function board(
  id: string,
  centre: Vec3,
  towards: Vec3,
  width: number,
  height: number,
  front: Material,
): Surface {
  const { x, y } = frameTowards(centre, towards)
  const halfU: Vec3 = [(x[0] * width) / 2, (x[1] * width) / 2, (x[2] * width) / 2]
  const halfV: Vec3 = [(y[0] * height) / 2, (y[1] * height) / 2, (y[2] * height) / 2]
  return { id, kind: 'panel', rect: { centre, halfU, halfV }, front, back: front }
}

/** A ball in place of a sitter: every vertex is a vertex of the proxy. Eyes are taken at its middle. */
export function ballFigure(centre: Vec3, radiusM: number, albedo: number, rings = 10): RigFigure {
  const mesh = ballMesh(centre, radiusM, { rings })
  const count = mesh.positions.length / 3
  const round = new Float32Array(mesh.positions.map((p, i) => (p - centre[i % 3]) / radiusM))
  const smooth = { ...mesh, normals: round }
  const tone: Rgb = [albedo, albedo, albedo]
  const part = {
    name: 'skin' as const,
    mesh: { ...smooth, positions: smooth.positions.map((p, i) => p - centre[i % 3]) },
    tint: new Float32Array(3 * count).fill(1),
    headWeight: new Float32Array(count).fill(1),
    proxyIndices: mesh.indices,
    proxyCorners: Uint32Array.from({ length: 3 * count }, (_, i) => Math.floor(i / 3)),
    proxyWeights: Float32Array.from({ length: 3 * count }, (_, i) => (i % 3 === 0 ? 1 : 0)),
  }
  return {
    id: 'sitter',
    posed: {
      parts: [resting(part, smooth)],
      landmarks: {} as RigFigure['posed']['landmarks'],
      noseDirection: [0, 0, 1],
      headUp: [0, 1, 0],
      eyeMidpoint: centre,
      gaze: { acrossDeg: 0, upDeg: 0, reached: true },
      carriage: { pivot: [0, 0, 0], at: [0, 0, 0], head: [0, 0, 0], body: [0, 0, 0] },
    },
    albedo: { skin: tone, eyeLeft: tone, eyeRight: tone, hair: tone, garment: tone, headwear: tone, glasses: tone },
    skinF0: 0,
    skinRoughness: 0.5,
  }
}

export function discLamp(
  at: Vec3,
  aim: Vec3,
  { radiusM = 0.5, luminance = 1, colour = [1, 1, 1] as Rgb, axialIntensity = 1, id = 'A' } = {},
): RigSource {
  const frame = frameTowards(at, aim)
  const emission = uniformSurface({ surface: { shape: 'disc', radiusM }, luminance })
  return {
    id,
    letter: id,
    role: 'key',
    on: true,
    frame,
    aim,
    axialIntensity,
    colour,
    emitters: [{ id: 'front', part: 'front', frame, emission }],
    gear: [],
    litFace: { shape: 'disc', widthM: 2 * radiusM, heightM: 2 * radiusM },
  }
}

export const rigOf = (
  sources: readonly RigSource[],
  surfaces: readonly Surface[],
  figures: readonly RigFigure[] = [],
): Rig => ({ sources, surfaces, balls: [], figures, view: VIEW })

export function bounceOf(rig: Rig, quality: ListQuality): Bounce {
  const scene = bounceScene(rig)
  return createBounce(scene, createRayCaster(scene.bodies), quality)
}

/** Mean over all patches by area, one band. */
export function areaMean(bounce: Bounce, rig: Rig, patches: Float32Array, band = 1): number {
  let sum = 0
  let area = 0
  for (const { surfaceId, first, columns, rows } of bounce.receivers.grids) {
    const { rect } = rig.surfaces.find(({ id }) => id === surfaceId)!
    const each = (4 * Math.hypot(...rect.halfU) * Math.hypot(...rect.halfV)) / (columns * rows)
    for (let i = first; i < first + columns * rows; i++) {
      sum += each * patches[3 * i + band]
      area += each
    }
  }
  return sum / area
}
