import type { FigureAsset } from '../figure'
import type { Camera, Sitting } from '../sitting'
import { frameTowards } from '../space'
import { rigFigure } from './figure'
import { backdropSurface, objectParts, panelSurface, roomSurfaces } from './set'
import { rigSource } from './source'
import type { Rig, View } from './types'

export interface RigAssets {
  readonly figure: FigureAsset
}

export const rigView = (camera: Camera): View => ({
  frame: frameTowards(camera.positionM, camera.aimM),
  focalLengthMm: camera.focalLengthMm,
  sensorWidthMm: camera.sensorWidthMm,
  sensorHeightMm: camera.sensorHeightMm,
  fNumber: camera.fNumber,
  iso: camera.iso,
  shutterS: camera.shutterS,
})

/** A part made anew only for a record that was not met before. Records of a sitting never change, so the record is the key. */
function remembered<K extends object, V>(make: (record: K) => V): (record: K) => V {
  const known = new WeakMap<K, V>()
  return (record) => {
    const before = known.get(record)
    if (before !== undefined) return before
    const part = make(record)
    known.set(record, part)
    return part
  }
}

/** The list as it was, where nothing in it changed: whoever compares lists by identity then sees no change. */
function keptList<T>(): (next: readonly T[]) => readonly T[] {
  let last: readonly T[] = []
  return (next) => {
    if (next.length !== last.length || next.some((part, i) => part !== last[i])) last = next
    return last
  }
}

/**
 * A builder of rigs that makes again only what an edit touched: parts of unchanged records are the same objects as in
 * the rig before, so their identity tells bounce, meter and render what still holds. The result equals `assembleRig`.
 */
export function createRigBuilder(assets: RigAssets): (sitting: Sitting) => Rig {
  const source = remembered(rigSource)
  const panel = remembered(panelSurface)
  const room = remembered(roomSurfaces)
  const backdrop = remembered(backdropSurface)
  const object = remembered(objectParts)
  const view = remembered(rigView)
  const figure = remembered((sitter: Sitting['sitters'][number]) => rigFigure(sitter, assets.figure))
  const kept = {
    sources: keptList<Rig['sources'][number]>(),
    surfaces: keptList<Rig['surfaces'][number]>(),
    balls: keptList<Rig['balls'][number]>(),
    figures: keptList<Rig['figures'][number]>(),
  }
  return (sitting) => ({
    sources: kept.sources(sitting.sources.map(source)),
    surfaces: kept.surfaces([
      ...room(sitting.room),
      ...(sitting.backdrop ? [backdrop(sitting.backdrop)] : []),
      ...sitting.panels.map(panel),
      ...sitting.objects.flatMap((record) => object(record).surfaces),
    ]),
    balls: kept.balls(sitting.objects.flatMap((record) => object(record).balls)),
    figures: kept.figures(sitting.sitters.map(figure)),
    view: view(sitting.camera),
  })
}

/** The rig of a sitting, from scratch. World metres; see types.ts. */
export const assembleRig = (sitting: Sitting, assets: RigAssets): Rig => createRigBuilder(assets)(sitting)
