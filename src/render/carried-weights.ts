import type { RigFigure } from '../rig'

type FigurePart = RigFigure['posed']['parts'][number]['part']

const known = new WeakMap<FigurePart, Float32Array>()

/**
 * Shares, three a vertex, in which light goes from the corners of the proxy's triangle to a vertex over it: the triangle's own
 * weights times the cosine between the normals. So nothing crosses a ridge: one side of a collar or a lip may be lit and the
 * other not. Where no corner faces the vertex's way, the plain weights.
 */
export function carriedWeights(part: FigurePart): Float32Array {
  const before = known.get(part)
  if (before) return before
  const { proxyCorners, proxyWeights, mesh } = part
  const { normals: n } = mesh
  const weights = Float32Array.from(proxyWeights, (weight, i) => {
    const [a, b] = [3 * Math.floor(i / 3), 3 * proxyCorners[i]]
    return weight * Math.max(0, n[a] * n[b] + n[a + 1] * n[b + 1] + n[a + 2] * n[b + 2])
  })
  for (let i = 0; i < weights.length; i += 3) {
    const sum = weights[i] + weights[i + 1] + weights[i + 2]
    for (let k = i; k < i + 3; k++) weights[k] = sum > FACING ? weights[k] / sum : proxyWeights[k]
  }
  known.set(part, weights)
  return weights
}

/** Sum of weights below which no corner faces the vertex's way. */
const FACING = 0.05
