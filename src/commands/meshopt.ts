import { MeshoptSimplifier } from 'meshoptimizer'
import type { Evenness, Simplify } from '../figure'

const FLAGS = { none: [], light: ['RegularizeLight'], full: ['Regularize'] } as const satisfies Record<
  Evenness,
  ('Regularize' | 'RegularizeLight')[]
>

/** The quadric simplifier of meshoptimizer as the figure's recipe wants it: no error limit, no locked border. */
export async function meshoptSimplify(): Promise<Simplify> {
  await MeshoptSimplifier.ready
  return (indices, positions, attributes, weights, targetIndexCount, evenness) => {
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
      FLAGS[evenness],
    )
    return kept
  }
}
