/**
 * Ties every vertex of a part to the coarser proxy triangles over the same vertices. The proxy vertex to start from is found
 * along the mesh's own edges, not through space: the two sides of an ear or the two lips are never mistaken for each other.
 */
export interface ProxyMap {
  readonly proxyCorners: Uint32Array
  readonly proxyWeights: Float32Array
}

export function buildProxyMap(positions: Float32Array, indices: Uint32Array, proxyIndices: Uint32Array): ProxyMap {
  const n = positions.length / 3
  const owner = nearestProxyVertex(n, indices, proxyIndices)
  const rings = ringsOf(n, proxyIndices)
  const proxyCorners = new Uint32Array(n * 3)
  const proxyWeights = new Float32Array(n * 3)
  const search = new TriangleSearch(positions, proxyIndices, rings)
  for (let v = 0; v < n; v++) {
    search.find(v, owner[v])
    for (let k = 0; k < 3; k++) {
      proxyCorners[v * 3 + k] = proxyIndices[search.triangle * 3 + k]
      proxyWeights[v * 3 + k] = search.weights[k]
    }
  }
  return { proxyCorners, proxyWeights }
}

/** Compressed rows: the entries of row v are items[start[v]] to items[start[v + 1]]. */
interface Rows {
  readonly start: Uint32Array
  readonly items: Uint32Array
}

function rowsOf(rowCount: number, pairCount: number, row: (i: number) => number, item: (i: number) => number): Rows {
  const start = new Uint32Array(rowCount + 1)
  for (let i = 0; i < pairCount; i++) start[row(i) + 1]++
  for (let v = 0; v < rowCount; v++) start[v + 1] += start[v]
  const items = new Uint32Array(pairCount)
  const next = start.slice(0, rowCount)
  for (let i = 0; i < pairCount; i++) items[next[row(i)]++] = item(i)
  return { start, items }
}

/** Proxy triangles round each proxy vertex. */
const ringsOf = (n: number, proxyIndices: Uint32Array): Rows =>
  rowsOf(
    n,
    proxyIndices.length,
    (i) => proxyIndices[i],
    (i) => Math.floor(i / 3),
  )

/** Breadth first from all proxy vertices at once. */
function nearestProxyVertex(n: number, indices: Uint32Array, proxyIndices: Uint32Array): Int32Array {
  const follower = (i: number) => indices[i % 3 === 2 ? i - 2 : i + 1]
  const neighbours = rowsOf(n, indices.length, (i) => indices[i], follower)
  const owner = new Int32Array(n).fill(-1)
  const queue = new Uint32Array(n)
  let tail = 0
  for (const v of proxyIndices)
    if (owner[v] < 0) {
      owner[v] = v
      queue[tail++] = v
    }
  for (let head = 0; head < tail; head++) {
    const v = queue[head]
    for (let i = neighbours.start[v]; i < neighbours.start[v + 1]; i++) {
      const u = neighbours.items[i]
      if (owner[u] >= 0) continue
      owner[u] = owner[v]
      queue[tail++] = u
    }
  }
  if (tail < n) throw new Error(`figure.buildProxyMap: ${n - tail} of ${n} vertices are joined to no proxy vertex`)
  return owner
}

/** The proxy triangle nearest a vertex, among those round the start and then round the best one's corners. */
class TriangleSearch {
  triangle = 0
  readonly weights = new Float64Array(3)
  private best = 0
  /** Of each triangle, the vertex that last asked for it: rings of neighbours overlap. */
  private readonly asked: Int32Array

  constructor(
    private readonly positions: Float32Array,
    private readonly proxyIndices: Uint32Array,
    private readonly rings: Rows,
  ) {
    this.asked = new Int32Array(proxyIndices.length / 3).fill(-1)
  }

  find(vertex: number, start: number): void {
    this.best = Number.POSITIVE_INFINITY
    this.tryRing(vertex, start)
    const first = this.triangle
    for (let k = 0; k < 3 && this.best > 0; k++) {
      const corner = this.proxyIndices[first * 3 + k]
      if (corner !== start) this.tryRing(vertex, corner)
    }
  }

  private tryRing(vertex: number, corner: number): void {
    const { start, items } = this.rings
    for (let i = start[corner]; i < start[corner + 1] && this.best > 0; i++) {
      const triangle = items[i]
      if (this.asked[triangle] === vertex) continue
      this.asked[triangle] = vertex
      this.tryTriangle(vertex, triangle)
    }
  }

  /** By the squared distance to the foot point, its barycentric weights clamped to the triangle. */
  private tryTriangle(vertex: number, triangle: number): void {
    const p = this.positions
    const a = this.proxyIndices[triangle * 3] * 3
    const b = this.proxyIndices[triangle * 3 + 1] * 3
    const c = this.proxyIndices[triangle * 3 + 2] * 3
    const o = vertex * 3
    const ux = p[b] - p[a]
    const uy = p[b + 1] - p[a + 1]
    const uz = p[b + 2] - p[a + 2]
    const vx = p[c] - p[a]
    const vy = p[c + 1] - p[a + 1]
    const vz = p[c + 2] - p[a + 2]
    const wx = p[o] - p[a]
    const wy = p[o + 1] - p[a + 1]
    const wz = p[o + 2] - p[a + 2]
    const uu = ux * ux + uy * uy + uz * uz
    const uv = ux * vx + uy * vy + uz * vz
    const vv = vx * vx + vy * vy + vz * vz
    const uw = ux * wx + uy * wy + uz * wz
    const vw = vx * wx + vy * wy + vz * wz
    const area = uu * vv - uv * uv || 1e-30
    let s = Math.max(0, (vv * uw - uv * vw) / area)
    let t = Math.max(0, (uu * vw - uv * uw) / area)
    const over = Math.max(1, s + t)
    s /= over
    t /= over
    const dx = wx - s * ux - t * vx
    const dy = wy - s * uy - t * vy
    const dz = wz - s * uz - t * vz
    const distance = dx * dx + dy * dy + dz * dz
    if (distance >= this.best) return
    this.best = distance
    this.triangle = triangle
    this.weights[0] = 1 - s - t
    this.weights[1] = s
    this.weights[2] = t
  }
}
