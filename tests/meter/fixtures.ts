import { bodiesOf, type MeterScene } from '../../src/meter'
import type { Emission, LitSurface, Rgb } from '../../src/photometry'
import type { Rig, RigFigure, RigSource, Surface, View } from '../../src/rig'
import {
  addScaled,
  type Body,
  cross,
  dot,
  frameTowards,
  type Hit,
  length,
  normalize,
  type RayCaster,
  type Rect,
  scale,
  subtract,
  type Vec3,
} from '../../src/space'

/** A Lambert emitter, written here and not taken from photometry, so that the meter is judged apart from the profiles. */
export function lambertEmission(surface: LitSurface, luminance: number): Emission {
  const disc = surface.shape === 'disc'
  if (!disc && surface.shape !== 'rectangle') throw new Error('fixture: disc or rectangle only')
  const areaM2 = disc ? Math.PI * surface.radiusM ** 2 : surface.widthM * surface.heightM
  return {
    profile: 'uniform',
    surface,
    gate: { kind: 'open' },
    blockers: [],
    at: (u, v) => ({
      point: disc
        ? [
            surface.radiusM * Math.sqrt(u) * Math.cos(2 * Math.PI * v),
            surface.radiusM * Math.sqrt(u) * Math.sin(2 * Math.PI * v),
            0,
          ]
        : [(u - 0.5) * surface.widthM, (v - 0.5) * surface.heightM, 0],
      normal: [0, 0, 1],
      areaM2,
    }),
    luminance: () => luminance,
    sample: () => null,
    spread: () => null,
    flux: Math.PI * luminance * areaM2,
  }
}

export function sourceAt(
  id: string,
  surface: LitSurface,
  at: Vec3,
  aim: Vec3,
  { luminance = 1, axialIntensity = 1, colour = [1, 1, 1] as Rgb, role = 'key' } = {},
): RigSource {
  const frame = frameTowards(at, aim)
  const size =
    surface.shape === 'disc'
      ? { widthM: 2 * surface.radiusM, heightM: 2 * surface.radiusM }
      : surface.shape === 'rectangle'
        ? { widthM: surface.widthM, heightM: surface.heightM }
        : { widthM: 1, heightM: 1 }
  return {
    id,
    letter: id,
    role,
    on: true,
    frame,
    aim,
    axialIntensity,
    colour,
    emitters: [{ id: `${id}.front`, frame, emission: lambertEmission(surface, luminance), part: 'front' }],
    gear: [],
    litFace: { shape: surface.shape === 'disc' ? 'disc' : 'rectangle', ...size },
  }
}

export const VIEW: View = {
  frame: frameTowards([0, 1.2, 2], [0, 1.2, 0]),
  focalLengthMm: 85,
  sensorWidthMm: 36,
  sensorHeightMm: 24,
  fNumber: 8,
  iso: 100,
  shutterS: 1 / 125,
}

export function rigOf(
  sources: readonly RigSource[],
  surfaces: readonly Surface[] = [],
  figures: readonly RigFigure[] = [],
): Rig {
  return { sources, surfaces, balls: [], figures, view: VIEW }
}

/** Rays against every rectangle and triangle, one by one: slow, and too simple to share a fault with a tree. */
export function plainCaster(bodies: readonly Body[]): RayCaster {
  const nearest = (origin: Vec3, direction: Vec3, ignore?: ReadonlySet<number>): Hit | null => {
    let best: Hit | null = null
    bodies.forEach((body, bodyIndex) => {
      if (ignore?.has(bodyIndex)) return
      const hits =
        body.kind === 'rectangle' ? [meetRectangle(body, origin, direction)] : meetMesh(body, origin, direction)
      for (const hit of hits) if (hit && hit.distance < (best?.distance ?? Infinity)) best = { ...hit, bodyIndex }
    })
    return best
  }
  const visible = (from: Vec3, to: Vec3, ignore?: ReadonlySet<number>) => {
    const way = subtract(to, from)
    const far = length(way)
    const direction = scale(way, 1 / far)
    const hit = nearest(addScaled(from, direction, 1e-4), direction, ignore)
    return !hit || hit.distance > far - 2e-4
  }
  return { nearest, visible }
}

type Met = Omit<Hit, 'bodyIndex'>

function meetRectangle(
  { rect, oneSided }: { readonly rect: Rect; readonly oneSided: boolean },
  origin: Vec3,
  direction: Vec3,
): Met | null {
  const front = normalize(cross(rect.halfU, rect.halfV))
  const towards = dot(direction, front)
  if (Math.abs(towards) < 1e-12 || (oneSided && towards > 0)) return null
  const distance = dot(subtract(rect.centre, origin), front) / towards
  if (distance <= 0) return null
  const p = subtract(addScaled(origin, direction, distance), rect.centre)
  const inside = (half: Vec3) => Math.abs(dot(p, half)) <= dot(half, half)
  if (!inside(rect.halfU) || !inside(rect.halfV)) return null
  return {
    distance,
    triangle: 0,
    barycentric: [1, 0, 0],
    normal: towards < 0 ? front : scale(front, -1),
    fromBehind: towards > 0,
  }
}

function meetMesh({ mesh }: Extract<Body, { kind: 'mesh' }>, origin: Vec3, direction: Vec3): (Met | null)[] {
  const corner = (i: number): Vec3 => [mesh.positions[3 * i], mesh.positions[3 * i + 1], mesh.positions[3 * i + 2]]
  return Array.from({ length: mesh.indices.length / 3 }, (_, triangle) => {
    const [a, b, c] = [0, 1, 2].map((k) => corner(mesh.indices[3 * triangle + k]))
    const e1 = subtract(b, a)
    const e2 = subtract(c, a)
    const p = cross(direction, e2)
    const determinant = dot(e1, p)
    if (Math.abs(determinant) < 1e-16) return null
    const s = subtract(origin, a)
    const u = dot(s, p) / determinant
    const q = cross(s, e1)
    const v = dot(direction, q) / determinant
    const distance = dot(e2, q) / determinant
    if (u < 0 || v < 0 || u + v > 1 || distance <= 0) return null
    const outward = normalize(cross(e1, e2))
    const behind = dot(outward, direction) > 0
    return {
      distance,
      triangle,
      barycentric: [1 - u - v, u, v] as Vec3,
      normal: behind ? scale(outward, -1) : outward,
      fromBehind: behind,
    }
  })
}

export function sceneOf(rig: Rig): MeterScene {
  const bodies = bodiesOf(rig)
  return { rig, bodies, caster: plainCaster(bodies.bodies) }
}

/** Six one-sided walls facing inwards, centred on the origin. */
export function roomOf(size: Vec3, reflectance: number, kindOf: 'matt' = 'matt'): readonly Surface[] {
  const half = scale(size, 0.5)
  const wall = (id: string, centre: Vec3, halfU: Vec3, halfV: Vec3): Surface => ({
    id,
    kind: 'wall',
    rect: { centre, halfU, halfV },
    front: { kind: kindOf, albedo: [reflectance, reflectance, reflectance] },
    back: null,
  })
  const [x, y, z] = half
  return [
    wall('left', [-x, 0, 0], [0, y, 0], [0, 0, z]),
    wall('right', [x, 0, 0], [0, 0, z], [0, y, 0]),
    wall('floor', [0, -y, 0], [0, 0, z], [x, 0, 0]),
    wall('ceiling', [0, y, 0], [x, 0, 0], [0, 0, z]),
    wall('back', [0, 0, -z], [x, 0, 0], [0, y, 0]),
    wall('front', [0, 0, z], [0, y, 0], [x, 0, 0]),
  ]
}
