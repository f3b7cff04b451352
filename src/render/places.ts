import { BufferAttribute, type BufferGeometry, type DataTexture } from 'three'
import { coarseVertices, type RigFigure } from '../rig'
import type { Vec3 } from '../space'
import type { PosedPart } from './objects'
import { strip } from './table'

type FigurePart = RigFigure['posed']['parts'][number]['part']

const corners = new WeakMap<FigurePart, Float32Array>()

/** Three of a part's coarse vertices for each of all, of which that is a mean. */
function cornersOf(part: FigurePart): Float32Array {
  const known = corners.get(part)
  if (known) return known
  const placeOf = new Map([...coarseVertices(part)].map((vertex, place) => [vertex, place]))
  const made = Float32Array.from(part.proxyCorners, (vertex) => placeOf.get(vertex)!)
  corners.set(part, made)
  return made
}

/** Which three places each vertex of the figure geometry lies between. */
export function addCorners(geometry: BufferGeometry, parts: readonly PosedPart[]): void {
  const count = geometry.getAttribute('position').count
  const corners = new Float32Array(count * 3)
  const weights = new Float32Array(count * 3)
  let vertex = 0
  let place = 0
  for (const { part } of parts) {
    const own = cornersOf(part)
    for (let i = 0; i < own.length; i++) corners[vertex * 3 + i] = own[i] + place
    weights.set(part.proxyWeights, vertex * 3)
    vertex += own.length / 3
    place += coarseVertices(part).length
  }
  geometry.setAttribute('corners', new BufferAttribute(corners, 3))
  geometry.setAttribute('weights', new BufferAttribute(weights, 3))
}

/** A place of a sitter. */
export interface Place {
  readonly point: Vec3
  readonly normal: Vec3
}

const SPREAD = 32

/** Places where the evenness of a batch is asked for: sitters' coarse vertices, then those of the set. */
export class Places {
  readonly positions: DataTexture
  readonly normals: DataTexture
  readonly count: { readonly figures: number; readonly all: number }
  private set: BufferGeometry | null = null

  constructor(parts: readonly PosedPart[], set: BufferGeometry) {
    this.count = countOf(parts, set)
    this.positions = strip(new Float32Array(this.count.all * 4))
    this.normals = strip(new Float32Array(this.count.all * 4))
    this.move(parts, set)
  }

  /** Writes what differs from before. False: other counts of places, nothing done. */
  move(parts: readonly PosedPart[], set: BufferGeometry): boolean {
    const { figures, all } = countOf(parts, set)
    if (all !== this.count.all || figures !== this.count.figures) return false
    this.writeFigures(parts)
    if (set !== this.set) this.writeSet(set)
    this.set = set
    this.positions.needsUpdate = true
    this.normals.needsUpdate = true
    return true
  }

  /** A few of the sitters', all round them. */
  get sitters(): readonly Place[] {
    const stride = Math.max(1, Math.floor(this.count.figures / SPREAD))
    const at = ({ image }: DataTexture, i: number): Vec3 => {
      const values = image.data as Float32Array
      return [values[4 * i], values[4 * i + 1], values[4 * i + 2]]
    }
    return Array.from({ length: Math.floor(this.count.figures / stride) }, (_, k) => ({
      point: at(this.positions, k * stride),
      normal: at(this.normals, k * stride),
    }))
  }

  private writeFigures(parts: readonly PosedPart[]): void {
    let place = 0
    for (const { coarse } of parts) {
      put(this.positions, coarse.positions, place)
      put(this.normals, coarse.normals, place)
      place += coarse.positions.length / 3
    }
  }

  private writeSet(set: BufferGeometry): void {
    const { figures } = this.count
    put(this.positions, set.getAttribute('position').array, figures)
    put(this.normals, set.getAttribute('normal').array, figures)
  }

  dispose(): void {
    this.positions.dispose()
    this.normals.dispose()
  }
}

function countOf(parts: readonly PosedPart[], set: BufferGeometry): Places['count'] {
  const figures = parts.reduce((sum, { part }) => sum + coarseVertices(part).length, 0)
  return { figures, all: figures + set.getAttribute('position').count }
}

function put({ image }: DataTexture, from: ArrayLike<number>, first: number): void {
  const values = image.data as Float32Array
  for (let i = 0; i < from.length / 3; i++)
    for (let axis = 0; axis < 3; axis++) values[(first + i) * 4 + axis] = from[i * 3 + axis]
}
