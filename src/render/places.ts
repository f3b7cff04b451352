import { BufferAttribute, type BufferGeometry, type DataTexture } from 'three'
import type { RigFigure } from '../rig'
import type { Vec3 } from '../space'
import type { PosedPart } from './objects'
import type { SceneGeometry } from './scene'
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
  const proxy = { vertexOf, corners: Float32Array.from(part.proxyCorners, (vertex) => placeOf.get(vertex) ?? 0) }
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

/** Places where the evenness of a batch is asked for: sitters' coarse vertices, then those of the set, then the gear's. */
export class Places {
  readonly positions: DataTexture
  readonly normals: DataTexture
  /** A few of the sitters', all round them. */
  readonly spread: readonly Place[]
  readonly count: { readonly figures: number; readonly set: number; readonly all: number }

  constructor(parts: readonly PosedPart[], { set, gear }: Pick<SceneGeometry, 'set' | 'gear'>) {
    const figures = parts.reduce((sum, { part }) => sum + proxyOf(part).vertexOf.length, 0)
    const others = [set, gear].map((geometry) => geometry.getAttribute('position').count)
    this.count = { figures, set: others[0], all: figures + others[0] + others[1] }
    const read = (name: 'position' | 'normal', ofMesh: 'positions' | 'normals') => {
      const values = new Float32Array(this.count.all * 4)
      let place = 0
      const put = (from: ArrayLike<number>, vertex: number) => {
        for (let axis = 0; axis < 3; axis++) values[place * 4 + axis] = from[vertex * 3 + axis]
        place++
      }
      for (const { part, mesh } of parts) for (const vertex of proxyOf(part).vertexOf) put(mesh[ofMesh], vertex)
      for (const geometry of [set, gear]) {
        const { array, count } = geometry.getAttribute(name)
        for (let vertex = 0; vertex < count; vertex++) put(array, vertex)
      }
      return values
    }
    const [points, directions] = [read('position', 'positions'), read('normal', 'normals')]
    this.positions = strip(points)
    this.normals = strip(directions)
    const stride = Math.max(1, Math.floor(figures / SPREAD))
    const spread: Place[] = []
    for (let i = 0; i < figures; i += stride) spread.push({ point: at(points, i), normal: at(directions, i) })
    this.spread = spread
  }

  dispose(): void {
    this.positions.dispose()
    this.normals.dispose()
  }
}

const at = (values: Float32Array, i: number): Vec3 => [values[4 * i], values[4 * i + 1], values[4 * i + 2]]
