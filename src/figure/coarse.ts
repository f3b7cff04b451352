import type { FigurePart } from './types'

const known = new WeakMap<FigurePart, Uint32Array>()

/** The vertices of a part's coarse triangles, each once. */
export function coarseVertices(part: FigurePart): Uint32Array {
  const vertices = known.get(part) ?? Uint32Array.from(new Set(part.proxyIndices))
  known.set(part, vertices)
  return vertices
}
