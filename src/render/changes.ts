import { mirrorOf, type Rig, type RigFigure, type RigSource, type View } from '../rig'
import type { Frame } from '../space'
import { faceShows } from './lit-faces'
import { type Cloud, gearMatters, gearShows } from './reach'

/** What a new rig means for the picture: which geometry is rebuilt, which sources' light is gathered anew. */
export interface Changes {
  readonly figures: boolean
  readonly set: boolean
  readonly gear: boolean
  readonly faces: boolean
  readonly restart: ReadonlySet<string>
  /** Ids of the sources whose own gear changed. */
  readonly movedGear: readonly string[]
}

/** Compares by identity, as rig keeps unchanged records. Power, colour, on/off and exposure change nothing here. */
export function changesBetween(before: Rig | null, after: Rig): Changes {
  const ids = after.sources.map(({ id }) => id)
  if (!before) return { figures: true, set: true, gear: true, faces: true, restart: new Set(ids), movedGear: [] }
  const view = !sameView(before.view, after.view)
  const figures = !sameFigures(before, after)
  const set = !sameList(before.surfaces, after.surfaces) || !sameList(before.balls, after.balls)
  const previous = new Map(before.sources.map((source) => [source.id, source]))
  const moved = after.sources.filter((source) => !sameEmitters(previous.get(source.id), source))
  const gear = changedGear(before, after)
  const renumbers = numbering(before) !== numbering(after)
  const shows = (solids: RigSource['gear']) => gearShows(solids, after.view)
  const facesShow = (source: RigSource | undefined) =>
    source?.emitters.some((one) => faceShows(one, after.view)) ?? false
  const order = before.sources.map(({ id }) => id).join('\n') !== ids.join('\n')
  const all = view || figures || set || gear.some(({ solids }) => shows(solids))
  const restart = new Set(all ? ids : moved.map(({ id }) => id))
  return {
    figures,
    // Objects are numbered through all kinds, sitters first: another count of sitters' parts renumbers all.
    set: set || renumbers,
    gear: gear.some(({ solids }) => shows(solids)) || order || view || renumbers || set,
    faces:
      moved.some((source) => facesShow(source) || facesShow(previous.get(source.id))) ||
      order ||
      view ||
      renumbers ||
      set,
    restart,
    movedGear: gear.map(({ ownerId }) => ownerId),
  }
}

/** What objects are numbered by: sitters' parts first, then the set, faces and gear. */
const numbering = ({ figures, sources }: Rig): string =>
  JSON.stringify([
    figures.map(({ posed }) => posed.parts.length),
    sources.map(({ emitters, gear }) => [emitters.length, gear.map(({ kind }) => kind)]),
  ])

/** Does other sources' gear stand elsewhere in the light of this one? seen: what shows in the later set. A mirror's ways lead all over it. */
export const isDisturbed = (source: RigSource, before: Rig, after: Rig, seen: Cloud): boolean =>
  changedGear(before, after).some(
    ({ ownerId, solids }) => ownerId !== source.id && (mirrorOf(after) !== null || gearMatters(solids, source, seen)),
  )

interface ChangedGear {
  readonly ownerId: string
  /** As they stood and as they stand. */
  readonly solids: RigSource['gear']
}

function changedGear(before: Rig, after: Rig): readonly ChangedGear[] {
  const ids = new Set([...before.sources, ...after.sources].map(({ id }) => id))
  return [...ids].flatMap((ownerId) => {
    const old = before.sources.find(({ id }) => id === ownerId)?.gear ?? []
    const now = after.sources.find(({ id }) => id === ownerId)?.gear ?? []
    return old === now || sameList(old, now) ? [] : [{ ownerId, solids: [...old, ...now] }]
  })
}

const sameList = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a === b || (a.length === b.length && a.every((value, i) => value === b[i]))

function sameFigures(before: Rig, after: Rig): boolean {
  return (
    before.figures === after.figures ||
    (before.figures.length === after.figures.length &&
      before.figures.every((figure, i) => {
        const other = after.figures[i]
        return (
          figure === other ||
          (figure.posed === other.posed && figure.skinF0 === other.skinF0 && sameCoats(figure, other))
        )
      }))
  )
}

/** Tones and gloss of every part, by value: a sitter who turned brings new records of the same tones. */
export const sameCoats = (a: RigFigure, b: RigFigure): boolean =>
  a.skinRoughness === b.skinRoughness &&
  a.frameRoughness === b.frameRoughness &&
  a.posed.parts.every(({ name }) => sameList(a.albedo[name], b.albedo[name]))

function sameEmitters(before: RigSource | undefined, after: RigSource): boolean {
  if (!before || before.emitters.length !== after.emitters.length) return false
  return before.emitters.every(
    (emitter, i) =>
      emitter === after.emitters[i] ||
      (emitter.emission === after.emitters[i].emission && sameFrame(emitter.frame, after.emitters[i].frame)),
  )
}

const sameFrame = (a: Frame, b: Frame): boolean =>
  a === b || [a.origin, a.x, a.y, a.z].every((axis, i) => sameList(axis, [b.origin, b.x, b.y, b.z][i]))

const sameView = (a: View, b: View): boolean =>
  a === b ||
  (sameFrame(a.frame, b.frame) &&
    a.focalLengthMm === b.focalLengthMm &&
    a.sensorWidthMm === b.sensorWidthMm &&
    a.sensorHeightMm === b.sensorHeightMm)
