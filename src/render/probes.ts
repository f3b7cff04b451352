import type { IndirectLight, Receivers } from '../bounce'
import type { Rig } from '../rig'
import { distance, dot, subtract, type Vec3 } from '../space'
import type { GTextures } from './g-buffer'
import { OBJECT, OBJECT_KINDS } from './layouts'
import { Table } from './table'

export interface Probe {
  readonly position: Vec3
  /** Unit. */
  readonly normal: Vec3
}

const ROW = 64

/** A list of places in the camera's stead: a perfect matt white at each, 64 a row. */
export class ProbeGrid {
  readonly width = ROW
  readonly height: number
  readonly objects: Table
  private readonly position: Table
  private readonly normals: Table
  private readonly coat: Table

  constructor(probes: readonly Probe[]) {
    this.height = Math.max(1, Math.ceil(probes.length / ROW))
    this.position = new Table(ROW, this.height)
    this.normals = new Table(ROW, this.height)
    this.coat = new Table(ROW, this.height)
    this.objects = new Table(OBJECT.columns, 2)
    this.objects.set(1, OBJECT.kind, [OBJECT_KINDS.figure, 0, -1])
    probes.forEach(({ position, normal }, i) => {
      const row = Math.floor(i / ROW)
      const [x, y] = octahedral(normal)
      this.position.set(row, i % ROW, position, 1)
      this.normals.set(row, i % ROW, [x, y, x], y)
      this.coat.set(row, i % ROW, [1, 1, 1])
    })
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
    for (const table of [this.position, this.normals, this.coat, this.objects]) table.dispose()
  }
}

/** Twin of octahedral in g-buffer.frag.glsl. */
function octahedral([x, y, z]: Vec3): readonly [number, number] {
  const size = Math.abs(x) + Math.abs(y) + Math.abs(z)
  const [u, v] = [x / size, y / size]
  if (z >= 0) return [u, v]
  return [(1 - Math.abs(v)) * (u >= 0 ? 1 : -1), (1 - Math.abs(u)) * (v >= 0 ? 1 : -1)]
}

/** Nearer than this a probe lies on a sitter or a surface and takes its bounce. */
const ON_IT_M = 0.02

/** Bounced irradiance at each probe: of the nearest vertex of a sitter, else of the surface it lies on, else none. */
export function probeBounce(
  probes: readonly Probe[],
  vertexValues: Float32Array,
  light: IndirectLight,
  receivers: Receivers,
  rig: Rig,
  whiteGain: Vec3,
): Table {
  const table = new Table(ROW, Math.max(1, Math.ceil(probes.length / ROW)))
  probes.forEach((probe, i) => {
    const value = onSitter(probe, vertexValues, rig) ?? onSurface(probe, light, receivers, rig, whiteGain)
    table.set(Math.floor(i / ROW), i % ROW, value ?? [0, 0, 0])
  })
  return table
}

function onSitter({ position }: Probe, values: Float32Array, rig: Rig): Vec3 | null {
  let nearest = ON_IT_M
  let found: Vec3 | null = null
  let first = 0
  for (const { posed } of rig.figures)
    for (const { mesh } of posed.parts) {
      for (let v = 0; v < mesh.positions.length / 3; v++) {
        const at: Vec3 = [mesh.positions[v * 3], mesh.positions[v * 3 + 1], mesh.positions[v * 3 + 2]]
        const gap = distance(at, position)
        if (gap >= nearest) continue
        nearest = gap
        const entry = (first + v) * 4
        found = [values[entry], values[entry + 1], values[entry + 2]]
      }
      first += mesh.positions.length / 3
    }
  return found
}

function onSurface(
  { position, normal }: Probe,
  light: IndirectLight,
  receivers: Receivers,
  rig: Rig,
  gain: Vec3,
): Vec3 | null {
  for (const grid of receivers.grids) {
    const rect = rig.surfaces.find(({ id }) => id === grid.surfaceId)?.rect
    if (!rect) continue
    const from = subtract(position, rect.centre)
    const u = dot(from, rect.halfU) / dot(rect.halfU, rect.halfU)
    const v = dot(from, rect.halfV) / dot(rect.halfV, rect.halfV)
    const off = distance(position, [
      rect.centre[0] + rect.halfU[0] * u + rect.halfV[0] * v,
      rect.centre[1] + rect.halfU[1] * u + rect.halfV[1] * v,
      rect.centre[2] + rect.halfU[2] * u + rect.halfV[2] * v,
    ])
    if (Math.abs(u) > 1 || Math.abs(v) > 1 || off > ON_IT_M || !faces(grid.side, rect, normal)) continue
    return bilinear(grid, u, v, light, gain)
  }
  return null
}

function faces(side: 'front' | 'back', { halfU, halfV }: Rig['surfaces'][number]['rect'], normal: Vec3): boolean {
  const front: Vec3 = [
    halfU[1] * halfV[2] - halfU[2] * halfV[1],
    halfU[2] * halfV[0] - halfU[0] * halfV[2],
    halfU[0] * halfV[1] - halfU[1] * halfV[0],
  ]
  return dot(front, normal) > 0 === (side === 'front')
}

/** Twin of bounceAt in bounce.glsl. */
function bilinear(grid: Receivers['grids'][number], u: number, v: number, light: IndirectLight, gain: Vec3): Vec3 {
  const x = (u * 0.5 + 0.5) * grid.columns - 0.5
  const y = (v * 0.5 + 0.5) * grid.rows - 0.5
  const [x0, y0] = [Math.floor(x), Math.floor(y)]
  const within = (value: number, count: number) => Math.min(count - 1, Math.max(0, value))
  const sum = [0, 0, 0]
  for (const dy of [0, 1])
    for (const dx of [0, 1]) {
      const weight = (dx ? x - x0 : 1 - (x - x0)) * (dy ? y - y0 : 1 - (y - y0))
      const patch = grid.first + within(y0 + dy, grid.rows) * grid.columns + within(x0 + dx, grid.columns)
      for (let band = 0; band < 3; band++) sum[band] += weight * light.patches[patch * 3 + band] * gain[band]
    }
  return [sum[0], sum[1], sum[2]]
}
