import type { Rig, RigSource } from '../rig'
import type { Changes } from './changes'
import type { LightLayer } from './light-layer'
import { type Cloud, seenCloud } from './reach'
import type { Sphere } from './shadow-frustum'

/**
 * One layer a source, in the rig's order: what restarts begins anew, the others keep what they have. Disturbed ones restart as
 * well, under a moving hand only once it rests. gone: of sources that are no more.
 */
export function nextLayers(
  old: readonly LightLayer[],
  rig: Rig,
  { restart, disturbed }: Changes,
  isMoving: boolean,
  sitters: Sphere | null,
  make: (source: RigSource, seen: Cloud) => LightLayer,
): { readonly layers: LightLayer[]; readonly gone: readonly LightLayer[] } {
  let found: Cloud | null = null
  const seen = (): Cloud => {
    found ??= seenCloud(rig)
    return found
  }
  const kept = new Map(old.map((layer) => [layer.source.id, layer]))
  const layers = rig.sources.map((source) => {
    const layer = kept.get(source.id)
    kept.delete(source.id)
    if (!layer) return make(source, seen())
    const isStale = layer.isStale || disturbed.has(source.id)
    if (restart.has(source.id) || (isStale && !isMoving)) layer.restart(source, rig, seen(), sitters)
    else Object.assign(layer, { source, isStale })
    return layer
  })
  return { layers, gone: [...kept.values()] }
}
