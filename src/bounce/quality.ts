/** How much work a bounce is worth. Ray counts are powers of two: so many Sobol points are evenly spread. */
export interface ListQuality {
  /** Rays from every patch and cluster, and from every vertex of a sitter's proxy. */
  readonly patchRays: number
  readonly vertexRays: number
  /** Patches of a near matt panel, along each edge of a cell, that share one vertex's rays: 1 gives each its own. */
  readonly linkEdge: number
}

export interface SolveQuality {
  /** Rays to the source from every patch and cluster, for each of its emitters. */
  readonly directRays: number
  /** Points that throw the light of metal panels: 0 leaves them in the vertices' lists, as matt. */
  readonly metalPoints: number
}

/** While something turns or moves: the lists of a rebuild in about 0.7 s. */
export const TURNING: ListQuality = { patchRays: 64, vertexRays: 32, linkEdge: 2 }
export const SETTLED_LISTS: ListQuality = { patchRays: 256, vertexRays: 256, linkEdge: 1 }
/** While a lamp is dragged. */
export const DRAGGING: SolveQuality = { directRays: 4, metalPoints: 16 }
export const SETTLED: SolveQuality = { directRays: 64, metalPoints: 256 }
