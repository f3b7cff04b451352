/**
 * Hairs and lines that are drawn along the skin of whoever sits: lashes, brows, the wet edge of the lower lid, short hairs
 * about the hairline, and wisps on the mass of hair. Each point is tied to three vertices of the skin, of wisps of the hair, which all
 * shapes share, so it goes wherever shape, pose and lids take them.
 */
import { hash32, type Vec3 } from '../../space'
import type { SkinFront, SkinPlace } from './skin-front'

export const STRAND_KINDS = ['lash', 'lashLine', 'brow', 'tear', 'hairline', 'wisp'] as const
export type StrandKind = (typeof STRAND_KINDS)[number]

export interface StrandPoint {
  /** Front view, metres. */
  readonly x: number
  readonly y: number
  /** Off the skin along its normal, metres. */
  readonly liftM?: number
  /** From there, metres along the head's axes. */
  readonly offset?: Vec3
  readonly halfWidthM: number
}

export interface Strand {
  readonly kind: StrandKind
  readonly lid: 'upper' | 'lower' | null
  readonly points: readonly StrandPoint[]
}

export interface StrandBinding {
  readonly kinds: readonly StrandKind[]
  readonly lids: readonly Strand['lid'][]
  /** First point of each strand, and last the count of points. */
  readonly starts: Uint32Array
  readonly corners: Uint32Array
  readonly weights: Float32Array
  readonly liftsM: Float32Array
  readonly offsets: Float32Array
  readonly halfWidthsM: Float32Array
}

export interface BoundStrand {
  readonly strand: Pick<Strand, 'kind' | 'lid'> & { readonly points: readonly Omit<StrandPoint, 'x' | 'y'>[] }
  /** One a point. */
  readonly places: readonly SkinPlace[]
}

/** Strands with a point off the skin are left out. */
export function bindStrands(front: SkinFront, strands: readonly Strand[]): readonly BoundStrand[] {
  return strands.flatMap((strand) => {
    // What hangs free is tied to the skin at its root alone.
    const root = strand.points[0]
    const places = strand.points.map(({ x, y, offset }) => (offset ? front.at(root.x, root.y) : front.at(x, y)))
    const found = places.flatMap((place) => (place ? [place] : []))
    return found.length === places.length ? [{ strand, places: found }] : []
  })
}

export function bindingOf(bound: readonly BoundStrand[]): StrandBinding {
  const points = bound.flatMap(({ strand }) => strand.points)
  const places = bound.flatMap((one) => one.places)
  const starts = new Uint32Array(bound.length + 1)
  bound.forEach(({ strand }, i) => {
    starts[i + 1] = starts[i] + strand.points.length
  })
  return {
    kinds: bound.map(({ strand }) => strand.kind),
    lids: bound.map(({ strand }) => strand.lid),
    starts,
    corners: Uint32Array.from(places.flatMap(({ corners }) => corners)),
    weights: Float32Array.from(places.flatMap(({ weights }) => weights)),
    liftsM: Float32Array.from(points, ({ liftM }) => liftM ?? 0),
    offsets: Float32Array.from(points.flatMap(({ offset }) => offset ?? [0, 0, 0])),
    halfWidthsM: Float32Array.from(points, ({ halfWidthM }) => halfWidthM),
  }
}

/** Those strands of it alone that go with the lids, or those that do not. */
export function strandsWith(binding: StrandBinding, goes: 'with lids' | 'with head'): StrandBinding {
  const { kinds, lids, starts, ...points } = binding
  const kept = [...kinds.keys()].filter((strand) => (lids[strand] !== null) === (goes === 'with lids'))
  const counts = kept.map((strand) => starts[strand + 1] - starts[strand])
  const keptStarts = new Uint32Array(kept.length + 1)
  counts.forEach((count, i) => {
    keptStarts[i + 1] = keptStarts[i] + count
  })
  const only = <Values extends Float32Array | Uint32Array>(values: Values, size: number): Values => {
    const out = values.slice(0, keptStarts[kept.length] * size) as Values
    kept.forEach((strand, i) => {
      out.set(values.subarray(starts[strand] * size, starts[strand + 1] * size), keptStarts[i] * size)
    })
    return out
  }
  return {
    kinds: kept.map((strand) => kinds[strand]),
    lids: kept.map((strand) => lids[strand]),
    starts: keptStarts,
    corners: only(points.corners, 3),
    weights: only(points.weights, 3),
    liftsM: only(points.liftsM, 1),
    offsets: only(points.offsets, 3),
    halfWidthsM: only(points.halfWidthsM, 1),
  }
}

/** Chance without chance: the n-th number of a stream, from low to high. */
export const spread = (stream: number, n: number, low: number, high: number): number =>
  low + ((high - low) * hash32(n, stream)) / 2 ** 32
