/**
 * For each of the 256 inside/outside patterns of a cell's corners: how many surface patches it holds and which patch each
 * crossed edge belongs to. On an ambiguous face the inside corners are always separated: neighbouring cells then agree, so
 * every edge of the net has exactly two faces. (One vertex a cell left 48 to 72 non-manifold edges round the ear; a rule
 * by cell instead of by face left 88 open ones.) Corner k is at x = k & 1, y = k >> 1 & 1, z = k >> 2.
 */
export const CELL_EDGES: readonly (readonly [number, number])[] = [
  [0, 1],
  [2, 3],
  [4, 5],
  [6, 7],
  [0, 2],
  [1, 3],
  [4, 6],
  [5, 7],
  [0, 4],
  [1, 5],
  [2, 6],
  [3, 7],
]
const FACES = [
  [0, 2, 6, 4],
  [1, 3, 7, 5],
  [0, 1, 5, 4],
  [2, 3, 7, 6],
  [0, 1, 3, 2],
  [4, 5, 7, 6],
]

export interface CellPatches {
  readonly count: number
  /** Patch of each edge, −1 where the surface does not cross it. */
  readonly patchOfEdge: Int8Array
}

const edgeBetween = (a: number, b: number): number =>
  CELL_EDGES.findIndex(([p, q]) => (p === a && q === b) || (p === b && q === a))

function patchesOf(pattern: number): CellPatches {
  const inside = (corner: number) => (pattern >> corner) & 1
  const crossed = CELL_EDGES.map(([a, b]) => inside(a) !== inside(b))
  const parent = CELL_EDGES.map((_, i) => i)
  const root = (i: number): number => (parent[i] === i ? i : root(parent[i]))
  for (const face of FACES) {
    const edges = face.map((corner, i) => edgeBetween(corner, face[(i + 1) % 4]))
    const cut = edges.filter((edge) => crossed[edge])
    if (cut.length === 2) parent[root(cut[0])] = root(cut[1])
    else if (cut.length === 4)
      for (let i = 0; i < 4; i++) if (inside(face[i])) parent[root(edges[(i + 3) % 4])] = root(edges[i])
  }
  const names = new Map<number, number>()
  const patchOfEdge = new Int8Array(12).fill(-1)
  for (let edge = 0; edge < 12; edge++) {
    if (!crossed[edge]) continue
    const r = root(edge)
    if (!names.has(r)) names.set(r, names.size)
    patchOfEdge[edge] = names.get(r) as number
  }
  return { count: names.size, patchOfEdge }
}

export const CELL_PATCHES: readonly CellPatches[] = Array.from({ length: 256 }, (_, pattern) => patchesOf(pattern))
