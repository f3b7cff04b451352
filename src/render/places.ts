import { BufferAttribute, type BufferGeometry, type DataTexture } from 'three'
import type { RigFigure } from '../rig'
import type { Vec3 } from '../space'
import type { PosedPart } from './objects'
import { strip } from './table'

type FigurePart = RigFigure['posed']['parts'][number]['part']

/** The coarse vertices of a part, and each full vertex as a mean of three of them. */
interface Proxy {
  readonly vertexOf: readonly number[]
  readonly corners: Float32Array
}

const proxies = new WeakMap<FigurePart, Proxy>()

function proxyOf(part: FigurePart): Proxy {
  const known = proxies.get(part)
  if (known) return known
  const vertexOf = [...new Set(part.proxyIndices)]
  const placeOf = new Map(vertexOf.map((vertex, place) => [vertex, place]))
  const proxy = { vertexOf, corners: Float32Array.from(part.proxyCorners, (vertex) => placeOf.get(vertex)!) }
  proxies.set(part, proxy)
  return proxy
}

/** Which three places each vertex of the figure geometry lies between. */
export function addCorners(geometry: BufferGeometry, parts: readonly PosedPart[]): void {
  const count = geometry.getAttribute('position').count
  const corners = new Float32Array(count * 3)
  const weights = new Float32Array(count * 3)
  let vertex = 0
  let place = 0
  for (const { part } of parts) {
    const proxy = proxyOf(part)
    for (let i = 0; i < proxy.corners.length; i++) corners[vertex * 3 + i] = proxy.corners[i] + place
    weights.set(part.proxyWeights, vertex * 3)
    vertex += proxy.corners.length / 3
    place += proxy.vertexOf.length
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
    for (const { part, mesh } of parts) {
      const { vertexOf } = proxyOf(part)
      put(this.positions, mesh.positions, place, vertexOf)
      put(this.normals, mesh.normals, place, vertexOf)
      place += vertexOf.length
    }
  }

  private writeSet(set: BufferGeometry): void {
    const { figures, all } = this.count
    const vertices = Array.from({ length: all - figures }, (_, vertex) => vertex)
    put(this.positions, set.getAttribute('position').array, figures, vertices)
    put(this.normals, set.getAttribute('normal').array, figures, vertices)
  }

  dispose(): void {
    this.positions.dispose()
    this.normals.dispose()
  }
}

function countOf(parts: readonly PosedPart[], set: BufferGeometry): Places['count'] {
  const figures = parts.reduce((sum, { part }) => sum + proxyOf(part).vertexOf.length, 0)
  return { figures, all: figures + set.getAttribute('position').count }
}

function put({ image }: DataTexture, from: ArrayLike<number>, first: number, vertexOf: readonly number[]): void {
  const values = image.data as Float32Array
  for (let i = 0; i < vertexOf.length; i++)
    for (let axis = 0; axis < 3; axis++) values[(first + i) * 4 + axis] = from[vertexOf[i] * 3 + axis]
}
