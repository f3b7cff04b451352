/** How much work a bounce is worth. Ray counts are powers of two: so many Sobol points are evenly spread. */
export interface ListQuality {
  /** Rays from every patch and cluster, and from every vertex of a sitter's proxy. */
  readonly patchRays: number
  /** From a cluster so many at most: those of a turned head cannot be taken over, and they only send. */
  readonly clusterRays?: number
  readonly vertexRays: number
  /** Along either side of a square of rays from each eye to what its cornea mirrors; left out: it mirrors none of it. */
  readonly eyeCells?: number
  /** Patches of a near matt panel, along each edge of a cell, that share one vertex's rays: 1 gives each its own. */
  readonly linkEdge: number
  /** Rays to one that a shadow's edge may cross: 4 at most, each to a quarter of it; left out: 4. */
  readonly edgeRays?: number
  /** So few rays a vertex that its light is evened out with that of neighbours which face the same way. */
  readonly evened?: boolean
}

export interface SolveQuality {
  /** Rays to the source from every patch and cluster, for each of its emitters. */
  readonly directRays: number
  /** Points that throw the light of metal panels: 0 leaves them in the vertices' lists, as matt. */
  readonly metalPoints: number
  /** So many light the set where a lamp near a panel's own plane lights a part of it far more than the rest. */
  readonly grazedPoints: number
  /** Points on what is bright, by which the set's patches are lit once more in the end: 0 leaves them to their lists. */
  readonly gatherPoints: number
  /** Of each vertex' list, by which its lean is found: so many at most. */
  readonly leanRays: number
  /** The share of all radiosity that a sweep changes at which it is the last; in a room of ρ 0.9 some ten times that is left. */
  readonly leastChange: number
}

/** While something turns or moves. */
export const TURNING: ListQuality = {
  patchRays: 64,
  clusterRays: 32,
  vertexRays: 16,
  eyeCells: 24,
  linkEdge: 2,
  edgeRays: 2,
  evened: true,
}
export const SETTLED_LISTS: ListQuality = { patchRays: 256, vertexRays: 256, eyeCells: 48, linkEdge: 1 }
/** While a lamp is dragged. */
export const DRAGGING: SolveQuality = {
  directRays: 4,
  metalPoints: 16,
  grazedPoints: 16,
  gatherPoints: 0,
  leanRays: 32,
  leastChange: 1e-4,
}
/** The first answer over lists that were made anew: that takes so long that better light from the lamps costs little of it. */
export const TURNED: SolveQuality = { ...DRAGGING, directRays: 8 }
export const SETTLED: SolveQuality = {
  directRays: 64,
  metalPoints: 256,
  grazedPoints: 1024,
  gatherPoints: 256,
  leanRays: 256,
  leastChange: 1e-5,
}
