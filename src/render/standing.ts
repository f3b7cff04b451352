import { type Mirror, mirrorOf, type Rig, type RigSource } from '../rig'
import type { Vec3 } from '../space'
import { isEnsemble, membersOf } from './ensemble'
import { MAX_OCCLUDERS } from './layouts'
import { type Occluder, occludersFor, packOccluders } from './pack'
import { type Cloud, cornersOf, litCloud, mayBlock, pointCloud, sittersCloud } from './reach'
import type { Records } from './table'

/** Things that a program asks about, closed forms all. */
interface Listed {
  readonly records: Records
  readonly count: number
}
const listed = (occluders: readonly Occluder[]): Listed => ({
  records: packOccluders(occluders),
  count: occluders.length,
})

export interface StandingOrder {
  readonly source: RigSource
  readonly rig: Rig
  readonly seen: Cloud
  /** Of metal panels. */
  readonly points: readonly { readonly point: Vec3 }[]
  /** Where what is lit as a sitter lies; null: the sitters. */
  readonly places: Cloud | null
}

/** What may stand in the light of a source, or of each of an ensemble, and of its panels' points. */
export class Standing {
  readonly direct: Listed
  /** Of an ensemble: which of them may stand in the light of each source. */
  readonly rows: readonly { readonly index: number; readonly first: number; readonly count: number }[]
  /** More than a batch can ask about stands in the light of an ensemble: it can't be drawn as one. */
  readonly isOverfull: boolean
  /** What stands between the panels' virtual points and the sitters: the source's own gear too. */
  readonly points: Listed
  /** Over it the source's light comes as well. */
  readonly mirror: Mirror | null
  /** What may stand in that way: the source's own gear last; and how many come before it. */
  readonly mirrored: Listed
  readonly others: number
  private readonly sitters: Cloud
  private readonly beforePoints: readonly Occluder[]
  /** Before the sitters, by the index of the source. */
  private readonly before: ReadonlyMap<number, readonly Occluder[]>

  constructor({ source, rig, seen, points, places }: StandingOrder) {
    this.sitters = places ?? sittersCloud(rig)
    const all = membersOf(source).map(({ source: one, index }) => {
      const lit = litCloud(one)
      const occluders = occludersFor(rig, one).filter((occluder) => mayBlock(occluder, lit, seen))
      return { index, occluders, before: occluders.filter((occluder) => mayBlock(occluder, lit, this.sitters)) }
    })
    const occluders = all.flatMap((one) => one.occluders)
    this.isOverfull = isEnsemble(source) && occluders.length > MAX_OCCLUDERS
    this.direct = listed(this.isOverfull ? [] : occluders)
    this.before = new Map(all.map(({ index, before }) => [index, before]))
    let next = 0
    this.rows = all.map(({ index, occluders: { length: count } }) => {
      const first = next
      next += count
      return { index, first, count }
    })
    const lit = pointCloud(points.map(({ point }) => point))
    this.beforePoints = (points.length > 0 ? occludersFor(rig, null) : []).filter((one) =>
      mayBlock(one, lit, this.sitters),
    )
    this.points = listed(this.beforePoints)
    this.mirror = mirrorOf(rig)
    const { between, own } = this.mirror ? overMirror(this.mirror, source, rig, seen) : { between: [], own: [] }
    this.mirrored = listed([...between, ...own])
    this.others = between.length
  }

  /** May anything but the sitters stand between them and a lit point that reaches so far, of the source of that index? */
  mayHide(point: Vec3, reachM: number, index: number): boolean {
    return this.isAny(this.before.get(index) ?? [], point, reachM)
  }

  /** The same of a panel's point. */
  mayHidePoint(point: Vec3, reachM: number): boolean {
    return this.isAny(this.beforePoints, point, reachM)
  }

  private isAny(occluders: readonly Occluder[], point: Vec3, radiusM: number): boolean {
    const lit = { points: [point], balls: [{ centre: point, radiusM }] }
    return occluders.some((one) => mayBlock(one, lit, this.sitters))
  }
}

function overMirror({ surfaceId, rect }: Mirror, source: RigSource, rig: Rig, seen: Cloud) {
  const lit = litCloud(source)
  const mirror = pointCloud(cornersOf(rect))
  const others = occludersFor({ ...rig, surfaces: rig.surfaces.filter(({ id }) => id !== surfaceId) }, source)
  return {
    between: others.filter((one) => mayBlock(one, lit, mirror) || mayBlock(one, mirror, seen)),
    own: source.gear.filter((one) => mayBlock(one, mirror, seen)),
  }
}
