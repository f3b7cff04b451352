import { MeshoptSimplifier } from 'meshoptimizer'
import type { Simplify } from '../figure'

/** The quadric simplifier of meshoptimizer as the figure's recipe wants it: no error limit, no locked border. */
export async function meshoptSimplify(): Promise<Simplify> {
  await MeshoptSimplifier.ready
  return (indices, positions, attributes, weights, targetIndexCount, evenTriangles) => {
    const [kept] = MeshoptSimplifier.simplifyWithAttributes(
      indices,
      positions,
      3,
      attributes,
      weights.length,
      [...weights],
      null,
      targetIndexCount,
      1,
      evenTriangles ? ['Regularize'] : [],
    )
    return kept
  }
}
