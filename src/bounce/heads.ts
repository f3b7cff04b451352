import type { RigFigure } from '../rig'
import type { Body, CasterOver, RayCaster, Vec3 } from '../space'

type PosedPart = RigFigure['posed']['parts'][number]
type FigurePart = PosedPart['part']

/** Of the rays from each vertex so many are remembered: as many as there are while something turns. */
export const KEPT_RAYS = 16

/** What a ray meets of the head, by the part's number within the sitter. */
export interface HeadHit {
  readonly part: number
  readonly triangle: number
  readonly distance: number
  readonly fromBehind: boolean
}

/** What goes with a sitter's head as one piece, in the head's own frame: the same in every pose. */
export class KnownHead {
  private readonly caster: RayCaster
  /** Parts of which something goes along, in the caster's order. */
  private readonly numbers: readonly number[]
  private readonly met: readonly Uint32Array[]
  private readonly distances: readonly Float32Array[]
  private readonly hidden: readonly Uint8Array[]

  constructor(
    readonly parts: readonly FigurePart[],
    maker: CasterOver,
  ) {
    this.numbers = [...parts.keys()].filter((part) => splitOf(parts[part]).along.indices.length > 0)
    const bodies = this.numbers.map((part): Body => {
      const { mesh } = parts[part]
      return { kind: 'mesh', mesh: { ...mesh, indices: splitOf(parts[part]).along.indices } }
    })
    this.caster = maker.over(bodies)
    this.met = parts.map((part) => new Uint32Array(KEPT_RAYS * splitOf(part).count))
    this.distances = parts.map((part) => new Float32Array(KEPT_RAYS * splitOf(part).count))
    this.hidden = parts.map((part) => new Uint8Array(splitOf(part).count))
  }

  /** Whether a vertex that goes along lies inside the head; found out once. */
  isHidden(part: number, vertex: number, find: () => boolean): boolean {
    const number = splitOf(this.parts[part]).numberOf[vertex]
    const hidden = this.hidden[part]
    if (hidden[number] === UNASKED) hidden[number] = find() ? INSIDE : OPEN
    return hidden[number] === INSIDE
  }

  /** What the ray-th ray from a vertex that goes along meets, in the head's frame; asked of the caster once. */
  meets(part: number, vertex: number, ray: number, point: Vec3, direction: Vec3): HeadHit | null {
    const i = KEPT_RAYS * splitOf(this.parts[part]).numberOf[vertex] + ray
    const [met, distances] = [this.met[part], this.distances[part]]
    if (met[i] === UNASKED) {
      const hit = this.caster.nearest(point, direction)
      met[i] = hit ? packed(this.numbers[hit.bodyIndex], hit.triangle, hit.fromBehind) : NOTHING
      distances[i] = hit?.distance ?? 0
    }
    if (met[i] === NOTHING) return null
    const bits = met[i] - FIRST
    const number = (bits >>> 1) & TRIANGLES
    const of = bits >>> PART_SHIFT
    return {
      part: of,
      triangle: splitOf(this.parts[of]).along.triangleOf[number],
      distance: distances[i],
      fromBehind: (bits & 1) === 1,
    }
  }
}

const UNASKED = 0
const NOTHING = 1
const FIRST = 2
const INSIDE = 1
const OPEN = 2
const PART_SHIFT = 24
const TRIANGLES = 0x7fffff

const packed = (part: number, triangle: number, fromBehind: boolean): number =>
  FIRST + ((part << PART_SHIFT) | (triangle << 1) | Number(fromBehind))

/** Some triangles of a proxy, and their numbers in it. */
interface Some {
  readonly indices: Uint32Array
  readonly triangleOf: Uint32Array
}

/** A part's proxy in two: what goes with the head as one piece, and what bends or stays. */
export interface Split {
  readonly along: Some
  readonly others: Some
  /** Of the vertices that go along, their numbers among those; −1: it does not. */
  readonly numberOf: Int32Array
  readonly count: number
}

const splits = new WeakMap<FigurePart, Split>()

export function splitOf(part: FigurePart): Split {
  const before = splits.get(part)
  if (before) return before
  const { headWeight, proxyIndices } = part
  const numberOf = new Int32Array(headWeight.length).fill(-1)
  let count = 0
  for (const vertex of proxyIndices) if (numberOf[vertex] < 0 && headWeight[vertex] === 1) numberOf[vertex] = count++
  const triangles = Array.from({ length: proxyIndices.length / 3 }, (_, t) => t)
  const isAlong = (t: number) => [0, 1, 2].every((corner) => numberOf[proxyIndices[3 * t + corner]] >= 0)
  const some = (wanted: readonly number[]): Some => ({
    indices: Uint32Array.from(wanted.flatMap((t) => [...proxyIndices.subarray(3 * t, 3 * t + 3)])),
    triangleOf: Uint32Array.from(wanted),
  })
  const split = {
    along: some(triangles.filter(isAlong)),
    others: some(triangles.filter((t) => !isAlong(t))),
    numberOf,
    count,
  }
  splits.set(part, split)
  return split
}

/** By the skin: the last head that it was part of. */
const heads = new WeakMap<FigurePart, KnownHead>()

export function knownHead({ posed }: RigFigure, maker: CasterOver): KnownHead {
  const parts = posed.parts.map(({ part }) => part)
  const before = heads.get(parts[0])
  if (before && before.parts.length === parts.length && before.parts.every((part, i) => part === parts[i]))
    return before
  const head = new KnownHead(parts, maker)
  heads.set(parts[0], head)
  return head
}
