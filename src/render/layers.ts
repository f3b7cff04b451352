import type { Rig, RigSource } from '../rig'
import { type Changes, isDisturbed } from './changes'
import { BATCH } from './layouts'
import type { LightLayer } from './light-layer'
import { type Cloud, seenCloud } from './reach'
import type { Sphere } from './shadow-frustum'

/**
 * One layer a source, in the rig's order: what restarts begins anew, the others keep what they have. Where others' gear was
 * moved in their light they restart as well, and so does what was drawn with few points: once no hand moves. gone: of sources
 * that are no more.
 */
export function nextLayers(
  old: readonly LightLayer[],
  rig: Rig,
  { restart, movedGear }: Changes,
  isMoving: boolean,
  sitters: Sphere | null,
  make: (source: RigSource, seen: () => Cloud) => LightLayer,
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
    if (!layer) return make(source, seen)
    layer.isGearMoved ||= movedGear.some((id) => id !== source.id)
    const isOver = !isMoving && (layer.isThin || (layer.isGearMoved && isDisturbed(source, layer.rig, rig, seen())))
    if (restart.has(source.id) || isOver) layer.restart(source, rig, seen, sitters)
    else layer.goOn(source, rig, isMoving)
    return layer
  })
  if (isMoving) thin(layers.filter(({ source }) => source.on))
  return { layers, gone: [...kept.values()] }
}

/** Of a first batch, at least. */
const FEWEST_POINTS = 4

/** So many lit sources and more count as one that starts: the error of each is a part of the picture's. */
const CROWD = 3

/**
 * Several sources that start under a moving hand share out what one would draw, and one among many gets half of it; light by way
 * of metal panels makes do with the fewest.
 */
function thin(lit: readonly LightLayer[]): void {
  const starting = lit.filter(({ batches }) => batches === 0)
  const among = Math.max(1, starting.length, lit.length / CROWD)
  const share = 2 ** Math.floor(Math.log2(BATCH / among))
  for (const layer of starting) {
    // No face without a point.
    const fewest = 2 ** Math.ceil(Math.log2(Math.max(1, layer.source.emitters.length)))
    layer.firstPoints = Math.min(BATCH, Math.max(FEWEST_POINTS, share, fewest))
    if (layer.points.length > 0) layer.firstPanelPoints = FEWEST_POINTS
  }
}
