import type { IndirectLight, Receivers } from '../../src/bounce'
import { canopy, type LitSurface, uniformSurface } from '../../src/photometry'
import type { Emitter, Rig, RigFigure, RigSource, Surface, View } from '../../src/rig'
import type { Frame, Mesh, Vec3 } from '../../src/space'
import { addScaled, frameTowards } from '../../src/space'
import { resting } from '../figure/resting'

/** Sets made by hand, for judging the renderer alone: no document, no gear files, no sculpt. */

const BLACK = { kind: 'matt', albedo: [0, 0, 0] } as const
const WHITE = { kind: 'matt', albedo: [1, 1, 1] } as const
export const GREY = { kind: 'matt', albedo: [0.5, 0.5, 0.5] } as const

/** A little aside: no ray through a pixel's middle may run along an edge of the mesh. */
const LOOK: Vec3 = [0.013, 1.3, 1.6]
const view: View = {
  frame: frameTowards(LOOK, [0, 1.2, 0]),
  focalLengthMm: 90,
  sensorWidthMm: 36,
  sensorHeightMm: 27,
  fNumber: 8,
  iso: 100,
  shutterS: 1 / 125,
}

const wall: Surface = {
  id: 'wall',
  kind: 'wall',
  rect: { centre: [0, 1.2, -0.8], halfU: [1.5, 0, 0], halfV: [0, 1.2, 0] },
  front: GREY,
  back: null,
}
const floor: Surface = {
  id: 'floor',
  kind: 'floor',
  rect: { centre: [0, 0.6, 0.4], halfU: [1.5, 0, 0], halfV: [0, 0, -1.2] },
  front: GREY,
  back: null,
}

/** A head: an egg with a ridge for a nose. */
export function bump(u: number, v: number, noseM: number): Vec3 {
  const polar = Math.PI * v
  const azimuth = 2 * Math.PI * u
  const direction: Vec3 = [Math.sin(polar) * Math.sin(azimuth), -Math.cos(polar), Math.sin(polar) * Math.cos(azimuth)]
  const nose =
    noseM * Math.exp(-((direction[0] / 0.18) ** 2) - ((direction[1] + 0.1) / 0.25) ** 2) * (direction[2] > 0 ? 1 : 0)
  const radius = 0.11 + nose
  return [direction[0] * radius * 0.8, 1.25 + direction[1] * radius * 1.15, direction[2] * radius]
}

export function headMesh(noseM: number, columns = 96, rows = 72) {
  const positions: number[] = []
  const indices: number[] = []
  for (let j = 0; j <= rows; j++)
    for (let i = 0; i < columns; i++) positions.push(...bump(i / columns, j / rows, noseM))
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      const a = j * columns + i
      const b = j * columns + ((i + 1) % columns)
      const c = a + columns
      const d = b + columns
      if (j > 0) indices.push(a, b, c)
      if (j < rows - 1) indices.push(c, b, d)
    }
  const mesh = { positions: new Float32Array(positions), indices: new Uint32Array(indices) }
  return { ...mesh, normals: vertexNormals(mesh.positions, mesh.indices) }
}

/** Area-weighted means of the triangles about each vertex; the poles' rows coincide, so they share one normal. */
function vertexNormals(positions: Float32Array, indices: Uint32Array): Float32Array {
  const normals = new Float32Array(positions.length)
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [indices[t] * 3, indices[t + 1] * 3, indices[t + 2] * 3]
    const u = [0, 1, 2].map((k) => positions[b + k] - positions[a + k])
    const v = [0, 1, 2].map((k) => positions[c + k] - positions[a + k])
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]
    for (const corner of [a, b, c]) for (const k of [0, 1, 2]) normals[corner + k] += n[k]
  }
  for (let i = 0; i < normals.length; i += 3) {
    const size = Math.hypot(normals[i], normals[i + 1], normals[i + 2]) || 1
    for (const k of [0, 1, 2]) normals[i + k] /= size
  }
  return normals
}

/** Left and right exchanged, triangles turned over so that they still face outwards. */
const mirroredMesh = ({ positions, normals, indices }: Mesh): Mesh => ({
  positions: positions.map((value, i) => (i % 3 === 0 ? -value : value)),
  normals: normals.map((value, i) => (i % 3 === 0 ? -value : value)),
  indices: indices.map((_, i) => indices[i % 3 === 0 ? i : i % 3 === 1 ? i + 1 : i - 1]),
})

/** noseM 0: convex, so that no part of it shades another. */
function bust(noseM = 0.03, mesh: Mesh = headMesh(noseM)): RigFigure {
  const count = mesh.positions.length / 3
  const part = {
    name: 'skin' as const,
    mesh,
    tint: new Float32Array(count * 3).fill(1),
    headWeight: new Float32Array(count).fill(1),
    proxyIndices: mesh.indices,
    proxyCorners: Uint32Array.from({ length: count * 3 }, (_, i) => Math.floor(i / 3)),
    proxyWeights: Float32Array.from({ length: count * 3 }, (_, i) => (i % 3 === 0 ? 1 : 0)),
  }
  const tone: Vec3 = [0.5, 0.5, 0.5]
  return {
    id: 'sitter',
    posed: {
      parts: [resting(part, mesh)],
      landmarks: {} as RigFigure['posed']['landmarks'],
      noseDirection: [0, 0, 1],
      headUp: [0, 1, 0],
      eyeMidpoint: [0, 1.25, 0],
      gaze: { acrossDeg: 0, upDeg: 0, reached: true },
      carriage: { pivot: [0, 0, 0], at: [0, 0, 0], head: [0, 0, 0], body: [0, 0, 0] },
    },
    albedo: { skin: tone, eyeLeft: tone, eyeRight: tone, hair: tone, garment: tone, headwear: tone, glasses: tone },
    skinF0: 0.028,
    // Matt, so that the judge needs no lobe.
    skinRoughness: 0,
  }
}

/** A lit face of luminance 1/m² at a place, looking at the head. */
export function lamp(
  id: string,
  surface: LitSurface,
  centre: Vec3,
  aim: Vec3 = [0, 1.25, 0],
  colour: Vec3 = [1, 1, 1],
): RigSource {
  const frame: Frame = frameTowards(centre, aim)
  const emitter: Emitter = {
    id: `${id}.front`,
    frame,
    emission: uniformSurface({ surface, luminance: 1 }),
    part: 'front',
  }
  return {
    id,
    letter: id,
    role: 'key',
    on: true,
    frame,
    aim,
    axialIntensity: 1,
    colour,
    emitters: [emitter],
    gear: [],
    litFace: { shape: 'disc', widthM: 1, heightM: 1 },
  }
}

const key: Vec3 = [0.7, 1.75, 0.75]
const mirrored = ([x, y, z]: Vec3): Vec3 => [-x, y, z]
const portrait = (sources: readonly RigSource[], figures = [bust()]): Rig => ({
  sources,
  surfaces: [wall, floor],
  balls: [],
  figures,
  view,
})

export const SURFACES = {
  hard: { shape: 'disc', radiusM: 0.035 },
  disc: { shape: 'disc', radiusM: 0.5 },
  rect: { shape: 'rectangle', widthM: 1, heightM: 1 },
} as const satisfies Record<string, LitSurface>

/** Six lit squares as a closed box about the scene: every direction is equally bright. */
function box(): RigSource {
  const half = 2
  const sides: readonly Vec3[] = [
    [1, 0, 0],
    [-1, 0, 0],
    [0, 1, 0],
    [0, -1, 0],
    [0, 0, 1],
    [0, 0, -1],
  ]
  const middle: Vec3 = [0, 1.25, 0]
  const surface = { shape: 'rectangle', widthM: 2 * half, heightM: 2 * half } as const
  const emission = uniformSurface({ surface, luminance: 1 })
  return {
    ...lamp('A', surface, key),
    emitters: sides.map((side, i) => ({
      id: `side${i}`,
      frame: frameTowards(addScaled(middle, side, half), middle),
      emission,
      part: 'front',
    })),
  }
}

/** A small lamp behind a honeycomb: its pool ends on the wall, between two vertices of it, and takes in half the head. */
function gridded(): RigSource {
  const surface = { shape: 'disc', radiusM: 0.09 } as const
  const source = lamp('A', surface, [0.5, 1.6, 1.2], [0, 1.2, -0.8])
  const gate = { kind: 'honeycomb', depthOverWidth: 5, wallLoss: 0.8 } as const
  return { ...source, emitters: [{ ...source.emitters[0], emission: uniformSurface({ surface, luminance: 1, gate }) }] }
}

/** A half glossy umbrella whose lamp stands in its own light. */
function umbrella(): RigSource {
  const source = lamp('A', SURFACES.disc, key)
  const emission = canopy({
    diameterM: 1,
    depthM: 0.2,
    side: 'inside',
    lamp: { axialIntensity: 1, exponent: 3, radiusM: 0.05 },
    shaftM: 0.5,
    cloth: { diffuse: 0.3, specular: 0.4, roughness: 0.5, forward: 0, forwardExponent: 1, exchange: 0.7 },
    blockers: [{ from: [0, 0, 0.3], to: [0, 0, 0.45], radiusM: 0.06 }],
  })
  return { ...source, emitters: [{ ...source.emitters[0], emission }] }
}

/** A flag and a ball before the wall: occluders in closed form. */
const flag: Surface = {
  id: 'flag',
  kind: 'flag',
  rect: { centre: [0.25, 1.5, 0.1], halfU: [0.1, 0, 0], halfV: [0, 0.1, 0] },
  front: BLACK,
  back: BLACK,
}

const coarseHead = (): Mesh => headMesh(0.03, 32, 24)

/** The head under the disc as a mirror across the middle of the room shows it. */
const inMirror = (mesh: Mesh): Rig => ({
  ...portrait([lamp('A', SURFACES.disc, mirrored(key))], [bust(0.03, mirroredMesh(mesh))]),
  view: { ...view, frame: frameTowards(mirrored(LOOK), [0, 1.2, 0]) },
})

const white = (figure: RigFigure): RigFigure => ({ ...figure, albedo: { ...figure.albedo, skin: [1, 1, 1] } })

export const rigs = {
  hard: () => portrait([lamp('A', SURFACES.hard, key)]),
  disc: () => portrait([lamp('A', SURFACES.disc, key)]),
  rect: () => portrait([lamp('A', SURFACES.rect, key)]),
  gridded: () => portrait([gridded()]),
  umbrella: () => portrait([umbrella()]),
  discMirrored: () => inMirror(headMesh(0.03)),
  /** A head of few facets, drawn sooner. */
  coarse: () => portrait([lamp('A', SURFACES.disc, key)], [bust(0.03, coarseHead())]),
  coarseMirrored: () => inMirror(coarseHead()),
  two: () =>
    portrait([lamp('A', SURFACES.disc, key, [0, 1.25, 0], [1.1, 0.97, 1]), lamp('B', SURFACES.rect, [-0.9, 1.3, 0.9])]),
  solids: (): Rig => ({
    ...portrait([lamp('A', SURFACES.hard, key)], []),
    balls: [{ id: 'ball', centre: [0, 1.2, -0.2], radiusM: 0.12, material: GREY }],
    surfaces: [wall, floor, flag],
  }),
  furnace: (): Rig => ({ ...portrait([box()], [white(bust(0))]), surfaces: [] }),
  /** All white; its lamp stands behind the wall and shines away. */
  empty: (): Rig => ({
    ...portrait([lamp('A', SURFACES.disc, [0, 1.25, -3], [0, 1.25, -4])], [white(bust())]),
    surfaces: [wall, floor].map((surface) => ({ ...surface, front: WHITE })),
  }),
  /** A card that ends in the middle of the frame, square to the lens, 1.5 m off; nothing behind it. */
  card: (): Rig => ({
    ...portrait([lamp('A', SURFACES.disc, [-0.5, 1.2, 1.5])], []),
    view: { ...view, frame: frameTowards([0, 1.2, 1.5], [0, 1.2, 0]) },
    surfaces: [
      {
        id: 'card',
        kind: 'card',
        rect: { centre: [-0.5, 1.2, 0], halfU: [0.5, 0, 0], halfV: [0, 0.5, 0] },
        front: WHITE,
        back: null,
      },
    ],
  }),
  bare: (): Rig => ({ ...portrait([lamp('A', SURFACES.disc, key)], []), surfaces: [] }),
} as const satisfies Record<string, () => Rig>
export type RigName = keyof typeof rigs

/** The same irradiance π on every receiver of a rig, in patches of uneven number. */
export function evenBounce(rig: Rig): { readonly light: IndirectLight; readonly receivers: Receivers } {
  let first = 0
  const grids = rig.surfaces.map(({ id }) => {
    const grid = { surfaceId: id, side: 'front' as const, columns: 5, rows: 3, first }
    first += 15
    return grid
  })
  let vertex = 0
  const figures = rig.figures.map(({ id, posed }) => ({
    figureId: id,
    parts: posed.parts.map(({ name, mesh }) => {
      const count = mesh.positions.length / 3
      const part = { name, first: vertex, vertexOf: Uint32Array.from({ length: count }, (_, i) => i) }
      vertex += count
      return part
    }),
  }))
  const even = (count: number) => new Float32Array(count * 3).fill(Math.PI)
  return {
    light: {
      sourceId: rig.sources[0].id,
      patches: even(first),
      vertices: even(vertex),
      leans: new Float32Array(3 * vertex),
      eyes: new Float32Array(0),
      points: [],
    },
    receivers: { grids, patchCount: first, figures, vertexCount: vertex, eyes: { cells: 0, maps: [] } },
  }
}
