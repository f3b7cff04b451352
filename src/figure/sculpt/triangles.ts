/** Angles of triangles by vertex index. */

function angleAt(p: ArrayLike<number>, a: number, b: number, c: number): number {
  let dot = 0
  let ab = 0
  let ac = 0
  for (let k = 0; k < 3; k++) {
    const u = p[b * 3 + k] - p[a * 3 + k]
    const v = p[c * 3 + k] - p[a * 3 + k]
    dot += u * v
    ab += u * u
    ac += v * v
  }
  return Math.acos(Math.max(-1, Math.min(1, dot / Math.sqrt(ab * ac + 1e-30))))
}

/** Radians. */
export const smallestAngle = (p: ArrayLike<number>, a: number, b: number, c: number): number =>
  Math.min(angleAt(p, a, b, c), angleAt(p, b, c, a), angleAt(p, c, a, b))
