import { areaOf } from '../photometry'
import type { Emitter, RigSource } from '../rig'
import { directionToWorld, hash32, pointToWorld, sobol, type Vec3 } from '../space'
import { BATCH } from './layouts'

type LitPoint = NonNullable<ReturnType<Emitter['emission']['sample']>>

/** A lit point moved into the world, with its share of the batch. */
export interface WorldSample {
  readonly lit: LitPoint
  readonly emitter: Emitter
  /** Its index among the source's emitters. */
  readonly emitterRow: number
  readonly point: Vec3
  readonly normal: Vec3
  readonly incident: Vec3
  /** Area that the point stands for, scaled so that BATCH points of a batch add up to the whole source, m². */
  readonly weightM2: number
  /** Half the side of the square patch it stands for after all samples so far, m. */
  readonly patchM: number
}

/**
 * How the 16 points of a batch are shared among a source's emitters. Light that leaves backwards or past the canopy
 * gets four each: it reaches the sitter by way of the room or not at all. Multiples of four keep Sobol's strata whole.
 */
export function shares(emitters: readonly Emitter[]): readonly number[] {
  const fronts = emitters.filter(({ part }) => part === 'front').length
  if (fronts === 0 || emitters.length > 3) return even(emitters.length)
  const rest = BATCH - 4 * (emitters.length - fronts)
  let left = rest
  return emitters.map(({ part }, i) => {
    if (part !== 'front') return 4
    const isLast = !emitters.slice(i + 1).some((later) => later.part === 'front')
    const share = isLast ? left : Math.floor(rest / fronts / 4) * 4
    left -= share
    return share
  })
}

const even = (count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => Math.floor((BATCH * (i + 1)) / count) - Math.floor((BATCH * i) / count))

/**
 * The batch-th sixteen points of a source. Points that miss the lit surface are left out: their share is lost light.
 * A count such as 12 is drawn as 8 + 4, each from a sequence of its own: only aligned powers of two of Sobol points are
 * even, and twelve of sixteen left the first frames of an umbrella 12 % too dark and the face 30 %.
 */
export function drawBatch(source: RigSource, batch: number, seed: number): readonly WorldSample[] {
  const counts = shares(source.emitters)
  return source.emitters.flatMap((emitter, e) => {
    const count = counts[e]
    const halfPatch = 0.5 * Math.sqrt(areaOf(emitter.emission.surface) / (count * (batch + 1)))
    return powersOfTwo(count)
      .flatMap((size, part) => {
        const stream = streamOf(source.id) + (e * MOST_PARTS + part) * 4
        const scrambles = [0, 1, 2, 3].map((dimension) => hash32(seed, stream + dimension))
        return Array.from({ length: size }, (_, i) => {
          const [a, b, c, d] = scrambles.map((scramble, dimension) => sobol(batch * size + i, dimension, scramble))
          const lit = emitter.emission.sample([a, b, c, d])
          return lit && toWorld(lit, emitter, e, BATCH / count, halfPatch)
        })
      })
      .filter((sample) => sample !== null)
  })
}

/** At most so many runs make up a count of up to BATCH. */
const MOST_PARTS = 5

/** Runs of fewer than four points gain nothing: a small or odd count stays one run. */
function powersOfTwo(count: number): readonly number[] {
  return count % 4 === 0 ? [16, 8, 4].filter((size) => (count & size) !== 0) : [count]
}

function toWorld(lit: LitPoint, emitter: Emitter, emitterRow: number, share: number, patchM: number): WorldSample {
  const { frame } = emitter
  return {
    lit,
    emitter,
    emitterRow,
    point: pointToWorld(frame, lit.point),
    normal: directionToWorld(frame, lit.normal),
    incident: directionToWorld(frame, lit.incident),
    weightM2: lit.areaM2 * share,
    patchM,
  }
}

/** Same id, same points, whatever else stands in the set. */
function streamOf(id: string): number {
  let stream = 0
  for (let i = 0; i < id.length; i++) stream = hash32(stream, id.charCodeAt(i))
  return stream
}
