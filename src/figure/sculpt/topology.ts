/** Clean-up of raw meshes: largest component, unused vertices, mirroring a half into a whole. */
import type { RawMesh } from './nets'

/** Vertex groups joined by triangles; returns each vertex's group root. */
function groups(vertexCount: number, indices: Uint32Array): Int32Array {
  const parent = Int32Array.from({ length: vertexCount }, (_, i) => i)
  const root = (start: number): number => {
    let i = start
    while (parent[i] !== i) {
      parent[i] = parent[parent[i]]
      i = parent[i]
    }
    return i
  }
  for (let t = 0; t < indices.length; t += 3) {
    parent[root(indices[t + 1])] = root(indices[t])
    parent[root(indices[t + 2])] = root(indices[t])
  }
  return Int32Array.from({ length: vertexCount }, (_, i) => root(i))
}

/** Drops islands: thin noise far from the figure. */
export function largestComponent(mesh: RawMesh): RawMesh {
  const group = groups(mesh.positions.length / 3, mesh.indices)
  const sizes = new Map<number, number>()
  for (let t = 0; t < mesh.indices.length; t += 3) {
    const g = group[mesh.indices[t]]
    sizes.set(g, (sizes.get(g) ?? 0) + 1)
  }
  const best = [...sizes].reduce((a, b) => (b[1] > a[1] ? b : a))[0]
  const kept: number[] = []
  for (let t = 0; t < mesh.indices.length; t += 3)
    if (group[mesh.indices[t]] === best) kept.push(mesh.indices[t], mesh.indices[t + 1], mesh.indices[t + 2])
  return dropUnused(mesh.positions, Uint32Array.from(kept))
}

/** Renumbers vertices by first use. */
export function dropUnused(positions: Float64Array, indices: Uint32Array): RawMesh {
  const renamed = new Int32Array(positions.length / 3).fill(-1)
  const kept: number[] = []
  const out = indices.map((v) => {
    if (renamed[v] < 0) {
      renamed[v] = kept.length / 3
      kept.push(positions[v * 3], positions[v * 3 + 1], positions[v * 3 + 2])
    }
    return renamed[v]
  })
  return { positions: Float64Array.from(kept), indices: out }
}

/** For each vertex the triangles round it. */
function rounds(indices: Uint32Array, n: number): number[][] {
  const round: number[][] = Array.from({ length: n }, () => [])
  for (let i = 0; i < indices.length; i++) round[indices[i]].push(i - (i % 3))
  return round
}

/** The triangles round a vertex in fans: those joined by edges that have two faces and no more. */
function fansOf(vertex: number, round: readonly number[], indices: Uint32Array): number[][] {
  const others = (t: number) => [indices[t], indices[t + 1], indices[t + 2]].filter((v) => v !== vertex)
  const fans: number[][] = []
  const left = new Set(round)
  for (const start of round) {
    if (!left.delete(start)) continue
    const fan = [start]
    for (let i = 0; i < fan.length; i++)
      for (const v of others(fan[i])) {
        const faces = round.filter((t) => others(t).includes(v))
        if (faces.length === 2) for (const t of faces) if (left.delete(t)) fan.push(t)
      }
    fans.push(fan)
  }
  return fans
}

/** Sheets that the simplifier has joined at a vertex or an edge, each with vertices of its own; what falls off is dropped. */
export function separated({ positions, indices }: RawMesh): RawMesh {
  const points = Array.from(positions)
  const corners = indices.slice()
  const pinched = () => {
    const round = rounds(corners, points.length / 3)
    for (let v = 0; v < round.length; v++) {
      const [, ...fans] = fansOf(v, round[v], corners)
      if (fans.length > 0) return { v, fans }
    }
    return null
  }
  let found = pinched()
  if (!found) return { positions, indices }
  for (; found; found = pinched())
    for (const fan of found.fans) {
      const copy = points.length / 3
      points.push(points[found.v * 3], points[found.v * 3 + 1], points[found.v * 3 + 2])
      for (const t of fan) for (let k = 0; k < 3; k++) if (corners[t + k] === found.v) corners[t + k] = copy
    }
  return largestComponent({ positions: Float64Array.from(points), indices: corners })
}

/** The half mesh and its mirror image, welded by index along x = 0: exactly symmetric. */
export function mirrored({ positions, indices }: RawMesh): RawMesh {
  const n = positions.length / 3
  const twin = new Uint32Array(n)
  const all = Array.from(positions)
  for (let i = 0; i < n; i++) {
    if (positions[i * 3] === 0) twin[i] = i
    else {
      twin[i] = all.length / 3
      all.push(-positions[i * 3], positions[i * 3 + 1], positions[i * 3 + 2])
    }
  }
  const triangles: number[] = []
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [indices[t], indices[t + 1], indices[t + 2]]
    if (twin[a] === a && twin[b] === b && twin[c] === c) continue
    triangles.push(a, b, c, twin[a], twin[c], twin[b])
  }
  return { positions: Float64Array.from(all), indices: Uint32Array.from(triangles) }
}
