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
