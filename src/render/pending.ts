import type { LightLayer } from './light-layer'

/** Unfinished layers with the fewest samples; those that are off wait until the others are done. */
export function pendingOf(layers: readonly LightLayer[], target: number): readonly LightLayer[] {
  const unfinished = layers.filter((layer) => layer.samples < target)
  const lit = unfinished.filter((layer) => layer.source.on)
  const first = lit.length > 0 ? lit : unfinished
  const fewest = Math.min(...first.map((layer) => layer.samples))
  return first.filter((layer) => layer.samples === fewest)
}
