import { Vector4 } from 'three'
import { hasCells } from '../photometry'
import type { Emitter } from '../rig'
import { add, directionToWorld, distance, dot, hash32, pointToWorld, scale, sobol, subtract, type Vec3 } from '../space'
import { allot, isEnsemble, type Member, membersByEmitter } from './ensemble'
import { BATCH, EVEN_TIMES, OPEN_POINTS } from './layouts'
import type { LightLayer } from './light-layer'
import type { Sphere } from './shadow-frustum'

type LitPoint = NonNullable<ReturnType<Emitter['emission']['sample']>>

/** A lit point moved into the world, with its share of the batch. */
export interface WorldSample {
  readonly lit: LitPoint
  readonly emitter: Emitter
  /** Its index among the source's emitters. */
  readonly emitterRow: number
  /** The source that it belongs to, by whose factor it is weighed. */
  readonly member: Member
  readonly point: Vec3
  readonly normal: Vec3
  readonly incident: Vec3
  /** Area that the point stands for, scaled so that BATCH points of a batch add up to the whole source, m². */
  readonly weightM2: number
  /** Half the side of the square patch it stands for after all samples so far, m. */
  readonly patchM: number
}

/** What a batch draws. */
export interface Batch {
  /** Sixteen points or, in a thin first batch, fewer, each with a shadow map of the sitters. */
  readonly mapped: readonly WorldSample[]
  /** Points whose light cannot reach the sitters, such as the spill of a lamp that looks into its umbrella. Drawn when called for. */
  open(): readonly WorldSample[]
  /** More of the points that `mapped` has, for an even estimate of what they bring where nothing hides them; if asked for. */
  even(): readonly WorldSample[]
}

/**
 * The batch-th points of a source. Sixteen, or as many as its first batch has, are shared evenly by the lit faces that may
 * reach the sitters; light that leaves backwards or past the canopy gets a fourth of them. Points that are unlit are left out.
 */
export function drawBatch(
  {
    source,
    batches: batch,
    seen,
    sitters,
    firstPoints = BATCH,
  }: Pick<LightLayer, 'source' | 'batches' | 'seen' | 'sitters'> & Partial<Pick<LightLayer, 'firstPoints'>>,
  seed: number,
  isEvened = true,
): Batch {
  const rows = source.emitters.map((emitter, row) => ({ emitter, row }))
  const mapped = rows.filter(({ emitter }) => !sitters || mayReach(emitter, sitters))
  const open = rows.filter(
    (entry) => !mapped.includes(entry) && seen.balls.some((ball) => mayReach(entry.emitter, ball)),
  )
  const total = batch === 0 ? firstPoints : BATCH
  const counts = isEnsemble(source)
    ? allot(
        mapped.map(({ row }) => source.brightness[row]),
        total,
      )
    : shares(
        mapped.map(({ emitter }) => emitter),
        total,
      )
  const members = membersByEmitter(source)
  // An ensemble's need be no power of two.
  const evenTimes = EVEN_TIMES * (isEnsemble(source) ? 1 : BATCH / total)
  const draw = (entries: typeof rows, countOf: (i: number) => number, stream: number) =>
    entries.flatMap(({ emitter, row }, i) =>
      drawPoints({
        emitter,
        row,
        count: countOf(i),
        batch,
        seed,
        stream: streamOf(source.id) + row * STREAMS + stream,
        member: members[row],
      }),
    )
  return {
    mapped: draw(mapped, (i) => counts[i], 0),
    open: () => draw(open, () => OPEN_POINTS, 0),
    even: () => (isEvened ? draw(mapped, (i) => counts[i] * evenTimes, STREAMS / 2) : []),
  }
}

/** Light of a flat face, or from within a canopy, stays on the side that its frame looks to. */
function mayReach({ frame, emission: { surface, gate } }: Emitter, { centre, radiusM }: Sphere): boolean {
  const isOneSided = surface.shape !== 'cap' || gate.kind === 'opening' || gate.kind === 'combed-opening'
  return !isOneSided || dot(subtract(centre, frame.origin), frame.z) > -radiusM
}

/** Multiples of a fourth, four of sixteen, keep Sobol's strata whole. */
export function shares(emitters: readonly Emitter[], total: number = BATCH): readonly number[] {
  const fronts = emitters.filter(({ part }) => part === 'front').length
  if (fronts === 0 || emitters.length > 3) return even(emitters.length, total)
  const fourth = total / 4
  const rest = total - fourth * (emitters.length - fronts)
  let left = rest
  return emitters.map(({ part }, i) => {
    if (part !== 'front') return fourth
    const isLast = !emitters.slice(i + 1).some((later) => later.part === 'front')
    const share = isLast ? left : Math.floor(rest / fronts / fourth) * fourth
    left -= share
    return share
  })
}

const even = (count: number, total: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => Math.floor((total * (i + 1)) / count) - Math.floor((total * i) / count))

/** The batch-th points of what of a source may reach the mirror. */
export function drawForMirror(
  { source, batches, firstPoints }: Pick<LightLayer, 'source' | 'batches' | 'firstPoints'>,
  mirror: Sphere,
  seed: number,
): readonly WorldSample[] {
  return drawBatch({ source, batches, firstPoints, seen: { points: [], balls: [] }, sitters: mirror }, seed, false)
    .mapped
}

interface Order {
  readonly emitter: Emitter
  readonly row: number
  readonly count: number
  readonly batch: number
  readonly seed: number
  readonly stream: number
  readonly member: Member
}

/**
 * A count such as 12 is drawn as 8 + 4, each from a sequence of its own: only aligned powers of two of Sobol points are
 * even, and twelve of sixteen left the first frames of an umbrella 12 % too dark and the face 30 %.
 */
function drawPoints({ emitter, row, count, batch, seed, stream, member }: Order): readonly WorldSample[] {
  const cells = cellsFor(emitter, batch)
  return powersOfTwo(count)
    .flatMap((size, part) => {
      const scrambles = [0, 1, 2, 3].map((dimension) => hash32(seed, stream + part * 4 + dimension))
      return Array.from({ length: size }, (_, i) => {
        const [a, b, c, d] = scrambles.map((scramble, dimension) => sobol(batch * size + i, dimension, scramble))
        const lit = emitter.emission.spread([...cellMiddle(a, b, cells * size), c, d])
        const patchM = lit && 0.5 * Math.sqrt(lit.areaM2 / (count * (batch + 1)))
        return lit && toWorld(lit, emitter, row, member, count, patchM!)
      })
    })
    .filter((sample) => sample !== null)
}

/**
 * Cells to a point in which points stand in the middle; 0: they stay where they fell. A first picture of middles, each
 * softened by its cell, has the penumbra of the whole face; with points where they fell, a wall was off by 2 % of the
 * mean for a third of its width. But where a gate or the lamp in its own light lets only a part of the face be seen,
 * few middles all see past it, or none.
 */
function cellsFor({ emission }: Emitter, batch: number): number {
  if (!hasCells(emission) || batch >= 4) return 0
  return batch === 0 ? 1 : 4
}

/** The middle of a point's cell: of a power of two of Sobol points each has one of its own on the squarest such grid. */
function cellMiddle(u: number, v: number, cells: number): readonly [number, number] {
  const power = Math.log2(cells)
  if (!Number.isInteger(power)) return [u, v]
  const [across, along] = [2 ** Math.ceil(power / 2), 2 ** Math.floor(power / 2)]
  return [(Math.floor(u * across) + 0.5) / across, (Math.floor(v * along) + 0.5) / along]
}

/** Scrambles of an emitter: four dimensions of up to five runs, twice. */
const STREAMS = 64

/** Runs of fewer than four points gain nothing: a small or odd count stays one run. */
function powersOfTwo(count: number): readonly number[] {
  return count % 4 === 0 ? [64, 32, 16, 8, 4].filter((size) => (count & size) !== 0) : [count]
}

function toWorld(
  lit: LitPoint,
  emitter: Emitter,
  emitterRow: number,
  member: Member,
  count: number,
  patchM: number,
): WorldSample {
  const { frame } = emitter
  return {
    lit,
    emitter,
    emitterRow,
    member,
    point: pointToWorld(frame, lit.point),
    normal: directionToWorld(frame, lit.normal),
    incident: directionToWorld(frame, lit.incident),
    weightM2: (lit.areaM2 * member.factor * BATCH) / count,
    patchM,
  }
}

/** Same id, same points, whatever else stands in the set. */
function streamOf(id: string): number {
  let stream = 0
  for (let i = 0; i < id.length; i++) stream = hash32(stream, id.charCodeAt(i))
  return stream
}

/** A ball around points and what they reach: centre and radius, m. */
export function ballOf(points: readonly { readonly point: Vec3; readonly reachM: number }[]): Vector4 {
  const sum = points.reduce<Vec3>((total, { point }) => add(total, point), [0, 0, 0])
  const centre = scale(sum, 1 / Math.max(1, points.length))
  return new Vector4(...centre, Math.max(0, ...points.map(({ point, reachM }) => distance(point, centre) + reachM)))
}
