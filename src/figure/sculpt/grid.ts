/** Rectilinear grids of varying spacing for surface nets. Every axis holds a whole number of blocks of cells. */
export const BLOCK = 8

export interface Grid {
  readonly x: Float64Array
  readonly y: Float64Array
  readonly z: Float64Array
  /** The first x cell straddles the plane of symmetry; the mesh is one half and its vertices there lie on the plane. */
  readonly half: boolean
}

/** Nodes from start past end, each step taken from the spacing at the node before. */
export function axis(start: number, end: number, spacing: (at: number) => number): Float64Array {
  const nodes = [start]
  for (let at = start; at < end || (nodes.length - 1) % BLOCK !== 0; ) {
    at += spacing(at)
    nodes.push(at)
  }
  return Float64Array.from(nodes)
}

/** Fine inside [from, to], growing linearly to coarse over a margin on either side. */
export function ramp(at: number, from: number, to: number, fine: number, coarse: number, margin: number): number {
  const outside = Math.max(from - at, at - to, 0)
  return fine + (coarse - fine) * Math.min(1, outside / margin)
}
