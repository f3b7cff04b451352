import { darkShare, darkSide, USUAL_SYNC_S } from '../camera'
import {
  dressFigure,
  type FigureAsset,
  growStrands,
  growWisps,
  poseFigure,
  strandsWith,
  type Wardrobe,
  type Wear,
} from '../figure'
import { buildModifier } from '../gear'
import { type Camera, poseOf, type Sitter, type Sitting, type Source } from '../sitting'
import { frameTowards } from '../space'
import { type GrownStrands, poseFields, rigFigure, wearOf } from './figure'
import { withGlasses } from './glasses'
import { backdropSurface, objectParts, panelSurfaces, roomSurfaces } from './set'
import { shapedFigure } from './shape'
import { placeFields, placeSource, rigSource, sourceFields } from './source'
import type { Ball, Rig, RigFigure, RigSource, Surface, View } from './types'

export interface RigAssets {
  /** The first sitter; others are shaped from it. */
  readonly figure: FigureAsset
  /** What they may wear on the head, as far as it has been fetched; asked at each build. */
  readonly wardrobe?: Wardrobe
}

function rigView(camera: Camera): View {
  const frame = frameTowards(camera.positionM, camera.aimM)
  const dark = darkSide(frame, camera, darkShare(camera.shutterS, camera.syncS ?? USUAL_SYNC_S))
  return {
    frame,
    focalLengthMm: camera.focalLengthMm,
    sensorWidthMm: camera.sensorWidthMm,
    sensorHeightMm: camera.sensorHeightMm,
    fNumber: camera.fNumber,
    iso: camera.iso,
    shutterS: camera.shutterS,
    ...(dark ? { darkSide: dark } : {}),
    ...(camera.hood ? { hood: camera.hood } : {}),
  }
}

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

/** Each wear's own, made once. */
function byWear<V>(make: (wear: Wear) => V): (wear: Wear) => V {
  const known = new Map<string, V>()
  return (wear) => {
    const key = Object.values(wear).join()
    const part = known.get(key) ?? make(wear)
    known.set(key, part)
    return part
  }
}

/** The last part of each id, made anew only when one of the fields that it is made from differs. */
function whileSame<K extends { readonly id: string }, V>(
  fields: (record: K) => readonly unknown[],
  make: (record: K) => V,
): (record: K) => V {
  const last = new Map<string, { readonly key: readonly unknown[]; readonly part: V }>()
  return (record) => {
    const key = fields(record)
    const before = last.get(record.id)
    if (before?.key.every((field, i) => Object.is(field, key[i]))) return before.part
    const part = make(record)
    last.set(record.id, { key, part })
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

/** A sitter and the lens, which their eyes may follow. */
interface Seen {
  readonly id: string
  readonly sitter: Sitter
  readonly camera: Camera
}

/** A source and the camera through whose exposure it may burn on. */
interface Fired {
  readonly id: string
  readonly source: Source
  readonly camera: Camera
}

/**
 * A builder of rigs that makes again only what an edit touched. Parts of unchanged records are the same objects as in
 * the rig before; a source that only changes its power, colour or switch keeps its frame, emitters and gear, and a sitter
 * who only changes tone keeps the posed mesh. So identity tells bounce, meter and render what still holds. The result
 * equals `assembleRig`.
 */
export function createRigBuilder({ figure: first, wardrobe = {} }: RigAssets): (sitting: Sitting) => Rig {
  const person = (sitter: Sitter) => shapedFigure(dressFigure(first, wearOf(sitter), wardrobe), sitter.shape)
  const modifier = remembered(buildModifier)
  const placed = whileSame(placeFields, (record: Source) => placeSource(record, modifier(record.modifier)))
  const source = whileSame(
    ({ source, camera }: Fired) => sourceFields(source, placed(source), camera),
    ({ source, camera }) => rigSource(source, placed(source), camera),
  )
  const posed = whileSame(
    ({ sitter, camera }: Seen) => poseFields(sitter, camera),
    ({ sitter, camera }) => poseFigure(withGlasses(person(sitter), sitter.glasses), poseOf(sitter, camera)),
  )
  const grown = byWear((wear): GrownStrands => {
    const all = growStrands(first, wear)
    return {
      withLids: strandsWith(all, 'with lids'),
      withHead: strandsWith(all, 'with head'),
      onHair: growWisps(dressFigure(first, wear, wardrobe), wear),
    }
  })
  const figure = whileSame(
    (seen: Seen) => [seen.sitter, posed(seen)],
    (seen) => rigFigure(seen.sitter, posed(seen), () => grown(wearOf(seen.sitter))),
  )
  const surfaces = surfaceMaker()
  const object = remembered(objectParts)
  const view = remembered(rigView)
  const [sources, flat, balls, figures] = [
    keptList<RigSource>(),
    keptList<Surface>(),
    keptList<Ball>(),
    keptList<RigFigure>(),
  ]
  return (sitting) => ({
    sources: sources(
      sitting.sources.map((record) => source({ id: record.id, source: record, camera: sitting.camera })),
    ),
    surfaces: flat([...surfaces(sitting), ...sitting.objects.flatMap((record) => object(record).surfaces)]),
    balls: balls(sitting.objects.flatMap((record) => object(record).balls)),
    figures: figures(sitting.sitters.map((sitter) => figure({ id: sitter.id, sitter, camera: sitting.camera }))),
    view: view(sitting.camera),
  })
}

function surfaceMaker(): (sitting: Sitting) => readonly Surface[] {
  const panel = remembered(panelSurfaces)
  const room = remembered(roomSurfaces)
  const backdrop = remembered(backdropSurface)
  return (sitting) => [
    ...room(sitting.room),
    ...(sitting.backdrop ? [backdrop(sitting.backdrop)] : []),
    ...sitting.panels.flatMap(panel),
  ]
}

/** The rig of a sitting, from scratch. World metres; see types.ts. */
export const assembleRig = (sitting: Sitting, assets: RigAssets): Rig => createRigBuilder(assets)(sitting)
