import type { DataTexture } from 'three'
import type { Receivers } from '../bounce'
import type { Rig } from '../rig'
import { cross, distance, dot, normalize, subtract, type Vec3 } from '../space'
import type { GTextures } from './g-buffer'
import { packObjects, type SeenObject } from './objects'
import { Table } from './table'

export interface Probe {
  readonly position: Vec3
  /** Unit. */
  readonly normal: Vec3
}

const ROW = 64
/** Nearer than this a probe lies on a sitter, a surface or a ball and takes its bounce; in free air it has none but the panels'. */
const ON_IT_M = 0.02

type Side = Extract<SeenObject, { kind: 'side' }>

/** A list of places in the camera's stead: a perfect matt white at each, 64 a row. */
export class ProbeGrid {
  readonly width = ROW
  readonly height: number
  readonly objects: Table
  private readonly position: Table
  private readonly normals: Table
  private readonly coat: Table
  private readonly bounce: Table
  /** Of each probe the nearest vertex of the sitters, numbered as the figure geometry numbers them; −1: on none. */
  private readonly vertexOf: readonly number[]

  constructor(probes: readonly Probe[], rig: Rig, receivers: Receivers | null) {
    this.height = Math.max(1, Math.ceil(probes.length / ROW))
    this.position = new Table(ROW, this.height)
    this.normals = new Table(ROW, this.height)
    this.coat = new Table(ROW, this.height)
    this.bounce = new Table(ROW, this.height)
    this.vertexOf = probes.map((probe) => nearestVertex(probe, rig))
    const objects: SeenObject[] = [{ kind: 'probe' }]
    probes.forEach((probe, i) => {
      const under = this.vertexOf[i] < 0 ? (ballUnder(probe, rig) ?? sideUnder(probe, rig)) : null
      this.put(i, probe, under ? objects.push(under) : 1)
    })
    this.objects = packObjects(objects, receivers)
  }

  private put(i: number, { position, normal }: Probe, object: number): void {
    const row = Math.floor(i / ROW)
    const [x, y] = octahedral(normal)
    this.position.set(row, i % ROW, position, object)
    this.normals.set(row, i % ROW, [x, y, x], y)
    this.coat.set(row, i % ROW, [1, 1, 1])
  }

  /** Bounced irradiance of the probes on sitters; those on the set and on balls read the patches, as their pixels do. */
  bounceOf(vertexValues: Float32Array): DataTexture {
    this.vertexOf.forEach((vertex, i) => {
      const [r, g, b] = vertex < 0 ? [0, 0, 0] : vertexValues.subarray(4 * vertex, 4 * vertex + 3)
      this.bounce.set(Math.floor(i / ROW), i % ROW, [r, g, b])
    })
    this.bounce.texture.needsUpdate = true
    return this.bounce.texture
  }

  get textures(): GTextures {
    return {
      width: this.width,
      height: this.height,
      position: this.position.texture,
      normals: this.normals.texture,
      coat: this.coat.texture,
      eye: [0, 0, 0],
    }
  }

  dispose(): void {
    for (const table of [this.position, this.normals, this.coat, this.bounce, this.objects]) table.dispose()
  }
}

/** Twin of octahedral in g-buffer.frag.glsl. */
function octahedral([x, y, z]: Vec3): readonly [number, number] {
  const size = Math.abs(x) + Math.abs(y) + Math.abs(z)
  const [u, v] = [x / size, y / size]
  if (z >= 0) return [u, v]
  return [(1 - Math.abs(v)) * (u >= 0 ? 1 : -1), (1 - Math.abs(u)) * (v >= 0 ? 1 : -1)]
}

function nearestVertex({ position: [x, y, z] }: Probe, { figures }: Rig): number {
  let nearest = ON_IT_M
  let found = -1
  let first = 0
  for (const { mesh } of figures.flatMap(({ posed }) => posed.parts)) {
    const { positions } = mesh
    for (let i = 0; i < positions.length; i += 3) {
      const gap = Math.hypot(positions[i] - x, positions[i + 1] - y, positions[i + 2] - z)
      if (gap >= nearest) continue
      nearest = gap
      found = first + i / 3
    }
    first += positions.length / 3
  }
  return found
}

function ballUnder({ position }: Probe, { balls }: Rig): SeenObject | null {
  const index = balls.findIndex(({ centre, radiusM }) => Math.abs(distance(position, centre) - radiusM) < ON_IT_M)
  return index < 0 ? null : { kind: 'ball', index, ball: balls[index] }
}

/** The side of a surface on which a probe lies, facing its way; the nearest, should two lie there. */
function sideUnder({ position, normal }: Probe, { surfaces }: Rig): Side | null {
  let nearest = ON_IT_M
  let found: Side | null = null
  for (const surface of surfaces) {
    const { centre, halfU, halfV } = surface.rect
    const out = normalize(cross(halfU, halfV))
    const side = dot(out, normal) > 0 ? 'front' : 'back'
    const from = subtract(position, centre)
    const off = Math.abs(dot(from, out))
    const isWithin = [halfU, halfV].every((half) => Math.abs(dot(from, half)) <= dot(half, half))
    if (off >= nearest || !isWithin || (side === 'back' && !surface.back)) continue
    nearest = off
    found = { kind: 'side', surface, side }
  }
  return found
}
