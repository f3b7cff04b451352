import { CELL_EDGES, CELL_PATCHES } from './cellTopology'
import { BLOCK, type Grid } from './grid'
import type { Field } from './solids'

/** Triangles wound outwards; positions in mm, three a vertex. */
export interface RawMesh {
  readonly positions: Float64Array
  readonly indices: Uint32Array
}

const SIDE = BLOCK + 1
const CORNER_OFFSET = [0, 1, SIDE, SIDE + 1, SIDE * SIDE, SIDE * SIDE + 1, SIDE * SIDE + SIDE, SIDE * SIDE + SIDE + 1]
/** Per axis: offset of the edge's far corner, and the edge's number in the four cells round it, in winding order. */
const CROSSINGS = [
  {
    far: 1,
    cells: [
      [0, -1, -1, 3],
      [0, 0, -1, 2],
      [0, 0, 0, 0],
      [0, -1, 0, 1],
    ],
  },
  {
    far: SIDE,
    cells: [
      [-1, 0, -1, 7],
      [-1, 0, 0, 5],
      [0, 0, 0, 4],
      [0, 0, -1, 6],
    ],
  },
  {
    far: SIDE * SIDE,
    cells: [
      [-1, -1, 0, 11],
      [0, -1, 0, 10],
      [0, 0, 0, 8],
      [-1, 0, 0, 9],
    ],
  },
] as const

/**
 * Surface nets of the zero set: a vertex for each surface patch in a cell, a quad round each crossed grid edge.
 * Blocks whose centre is farther from the surface than reach × half their diagonal are skipped, so reach must cover how
 * far the field overstates distance (1.6 for the skin, 5 for hair).
 */
export function surfaceNets(field: Field, grid: Grid, reach: number): RawMesh {
  const net = new Net(grid)
  const [nx, ny, nz] = [grid.x, grid.y, grid.z].map((nodes) => (nodes.length - 1) / BLOCK)
  for (let k = 0; k < nz; k++)
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++) if (nearSurface(field, grid, i, j, k, reach)) net.addBlock(field, i, j, k)
  return net.finish()
}

const between = (nodes: Float64Array, t: number): number => {
  const i = Math.min(Math.floor(t), nodes.length - 2)
  return nodes[i] + (nodes[i + 1] - nodes[i]) * (t - i)
}

function nearSurface(field: Field, { x, y, z }: Grid, i: number, j: number, k: number, reach: number): boolean {
  const spans = [
    x[(i + 1) * BLOCK] - x[i * BLOCK],
    y[(j + 1) * BLOCK] - y[j * BLOCK],
    z[(k + 1) * BLOCK] - z[k * BLOCK],
  ]
  const half = Math.hypot(...spans) / 2
  const middle = field(between(x, (i + 0.5) * BLOCK), between(y, (j + 0.5) * BLOCK), between(z, (k + 0.5) * BLOCK))
  return Math.abs(middle) < reach * half + 1.5
}

class Net {
  private readonly positions: number[] = []
  /** Cell → first vertex, or per-edge vertices where a cell holds several patches. */
  private readonly single = new Map<number, number>()
  private readonly several = new Map<number, Int32Array>()
  /** Crossed edges: axis, cell i, j, k, 1 when the near end is inside. */
  private readonly crossings: number[] = []
  private readonly values = new Float64Array(SIDE ** 3)

  constructor(private readonly grid: Grid) {}

  private cellKey(i: number, j: number, k: number): number {
    return (k * this.grid.y.length + j) * this.grid.x.length + i
  }

  addBlock(field: Field, bi: number, bj: number, bk: number): void {
    const { x, y, z } = this.grid
    let inside = 0
    for (let k = 0, o = 0; k < SIDE; k++)
      for (let j = 0; j < SIDE; j++)
        for (let i = 0; i < SIDE; i++) {
          const value = field(x[bi * BLOCK + i], y[bj * BLOCK + j], z[bk * BLOCK + k])
          this.values[o++] = value
          if (value < 0) inside++
        }
    if (inside === 0 || inside === SIDE ** 3) return
    for (let k = 0; k < BLOCK; k++)
      for (let j = 0; j < BLOCK; j++)
        for (let i = 0; i < BLOCK; i++)
          this.addCell((k * SIDE + j) * SIDE + i, bi * BLOCK + i, bj * BLOCK + j, bk * BLOCK + k)
  }

  private addCell(base: number, i: number, j: number, k: number): void {
    let pattern = 0
    for (let q = 0; q < 8; q++) if (this.values[base + CORNER_OFFSET[q]] < 0) pattern |= 1 << q
    if (pattern === 0 || pattern === 255) return
    const { count, patchOfEdge } = CELL_PATCHES[pattern]
    const first = this.positions.length / 3
    for (let patch = 0; patch < count; patch++) this.addVertex(base, i, j, k, patch, patchOfEdge)
    if (count === 1) this.single.set(this.cellKey(i, j, k), first)
    else
      this.several.set(
        this.cellKey(i, j, k),
        Int32Array.from(patchOfEdge, (p) => (p < 0 ? -1 : first + p)),
      )
    const near = this.values[base] < 0
    CROSSINGS.forEach(({ far }, axis) => {
      if (this.values[base + far] < 0 !== near) this.crossings.push(axis, i, j, k, near ? 1 : 0)
    })
  }

  /** At the mean of the patch's edge crossings. */
  private addVertex(base: number, i: number, j: number, k: number, patch: number, patchOfEdge: Int8Array): void {
    const sum = [0, 0, 0]
    let n = 0
    CELL_EDGES.forEach(([p, q], edge) => {
      if (patchOfEdge[edge] !== patch) return
      const a = this.values[base + CORNER_OFFSET[p]]
      const t = a / (a - this.values[base + CORNER_OFFSET[q]])
      for (let axis = 0; axis < 3; axis++) {
        const from = (p >> axis) & 1
        sum[axis] += from + t * (((q >> axis) & 1) - from)
      }
      n++
    })
    const { x, y, z, half } = this.grid
    this.positions.push(
      half && i === 0 ? 0 : between(x, i + sum[0] / n),
      between(y, j + sum[1] / n),
      between(z, k + sum[2] / n),
    )
  }

  finish(): RawMesh {
    const indices: number[] = []
    for (let c = 0; c < this.crossings.length; c += 5) {
      const [axis, i, j, k, near] = this.crossings.slice(c, c + 5)
      // An edge through the plane of symmetry would give a face to both halves.
      if (axis === 0 && i === 0) continue
      const quad = CROSSINGS[axis].cells.map(([di, dj, dk, edge]) => this.vertexAt(i + di, j + dj, k + dk, edge))
      if (quad.some((v) => v < 0)) continue
      if (!near) [quad[1], quad[3]] = [quad[3], quad[1]]
      const [a, b, c2, d] = quad
      if (this.squaredDistance(a, c2) <= this.squaredDistance(b, d)) indices.push(a, b, c2, a, c2, d)
      else indices.push(b, c2, d, b, d, a)
    }
    return { positions: Float64Array.from(this.positions), indices: Uint32Array.from(indices) }
  }

  private vertexAt(i: number, j: number, k: number, edge: number): number {
    if (i < 0 || j < 0 || k < 0) return -1
    const key = this.cellKey(i, j, k)
    return this.single.get(key) ?? this.several.get(key)?.[edge] ?? -1
  }

  private squaredDistance(a: number, b: number): number {
    const p = this.positions
    return (p[a * 3] - p[b * 3]) ** 2 + (p[a * 3 + 1] - p[b * 3 + 1]) ** 2 + (p[a * 3 + 2] - p[b * 3 + 2]) ** 2
  }
}
