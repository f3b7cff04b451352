import type { FigurePart } from './types'

interface Coarse {
  readonly vertices: Uint32Array
  readonly edges: Uint32Array
  readonly headWeight: Float32Array
}

const known = new WeakMap<FigurePart, Coarse>()

function coarseOf(part: FigurePart): Coarse {
  const coarse = known.get(part) ?? coarseFrom(part)
  known.set(part, coarse)
  return coarse
}

/** Neighbours in the list follow the head alike, as in the part. */
function coarseFrom({ proxyIndices, headWeight }: FigurePart): Coarse {
  const vertices = Uint32Array.from(new Set(proxyIndices)).sort()
  const place = new Map([...vertices].map((vertex, i) => [vertex, i]))
  const edges: number[] = []
  // Every edge has two triangles, which run along it in opposite senses.
  proxyIndices.forEach((vertex, i) => {
    const next = proxyIndices[i % 3 === 2 ? i - 2 : i + 1]
    if (vertex < next) edges.push(place.get(vertex)!, place.get(next)!)
  })
  return {
    vertices,
    edges: Uint32Array.from(edges),
    headWeight: Float32Array.from(vertices, (vertex) => headWeight[vertex]),
  }
}

/** The vertices of a part's coarse triangles, each once. */
export const coarseVertices = (part: FigurePart): Uint32Array => coarseOf(part).vertices

/** Edges of those triangles as pairs of places among coarseVertices, each edge once. */
export const coarseEdges = (part: FigurePart): Uint32Array => coarseOf(part).edges

export const coarseHeadWeight = (part: FigurePart): Float32Array => coarseOf(part).headWeight
