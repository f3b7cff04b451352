import { addScaled, dot, type Mesh, type Vec3 } from '../space'
import type { Layout } from './layout'
import type { HitLists, RayStart } from './lists'
import type { BounceScene } from './scene'
import type { FigureReceivers } from './types'

/** Receivers on the sitters: every vertex of every part's proxy, with the mesh's own smooth normal. */
export interface VertexReceivers {
  readonly figures: readonly FigureReceivers[]
  readonly count: number
  /** null where every triangle round the vertex is buried. */
  startOf(row: number): RayStart | null
  /** Pairs of receivers joined by an edge of a proxy. */
  readonly edges: readonly (readonly [number, number])[]
}

/** Metres by which a ray starts off the vertex it leaves. */
const LIFT = 2e-4

export function vertexReceivers({ owners, rig }: BounceScene, { buried }: Layout): VertexReceivers {
  const starts: (RayStart | null)[] = []
  const edges: [number, number][] = []
  const figures = rig.figures.map((figure): FigureReceivers => {
    const parts = owners
      .filter((owner) => owner.kind === 'part')
      .filter((owner) => owner.figure === figure)
      .map((owner) => {
        const { part, mesh } = owner
        const first = starts.length
        const open = openVertices(mesh, buried.get(owner))
        const vertexOf = Uint32Array.from(new Set(mesh.indices)).sort()
        const numberOf = new Map([...vertexOf].map((vertex, i) => [vertex, first + i]))
        for (const vertex of vertexOf) starts.push(open.has(vertex) ? vertexStart(mesh, vertex) : null)
        for (let i = 0; i < mesh.indices.length; i++) {
          const next = i % 3 === 2 ? i - 2 : i + 1
          edges.push([numberOf.get(mesh.indices[i])!, numberOf.get(mesh.indices[next])!])
        }
        return { name: part.name, first, vertexOf }
      })
    return { figureId: figure.id, parts }
  })
  return { figures, count: starts.length, startOf: (row) => starts[row], edges }
}

const openVertices = ({ indices }: Mesh, buried: Uint8Array | undefined): ReadonlySet<number> =>
  new Set(indices.filter((_, i) => !buried?.[Math.floor(i / 3)]))

export function vertexStart({ positions: p, normals: n }: Mesh, vertex: number): RayStart {
  const i = 3 * vertex
  const normal: Vec3 = [n[i], n[i + 1], n[i + 2]]
  return { point: addScaled([p[i], p[i + 1], p[i + 2]], normal, LIFT), normal }
}

/** How a vertex gets light from its neighbours; a buried one, most of whose rays end inside a body, from those already known. */
export interface Fill {
  readonly row: number
  readonly from: readonly number[]
}

/** Share of rays that must leave for the open; less, and the vertex is inside something. */
const OPEN_SHARE = 0.6

export const isBuried = ({ valid, rays }: HitLists, row: number): boolean => valid[row] < OPEN_SHARE * rays

/** In an order in which every neighbour is known before it is asked for. What is buried whole stays dark. */
export function fillPlan({ count, edges }: Pick<VertexReceivers, 'count' | 'edges'>, lists: HitLists): readonly Fill[] {
  const neighbours: number[][] = Array.from({ length: count }, () => [])
  for (const [a, b] of edges) {
    neighbours[a].push(b)
    neighbours[b].push(a)
  }
  const known = Uint8Array.from({ length: count }, (_, row) => (isBuried(lists, row) ? 0 : 1))
  const plan: Fill[] = []
  let waiting = [...known.keys()].filter((row) => !known[row])
  while (waiting.length > 0) {
    const round = waiting
      .map((row) => ({ row, from: [...new Set(neighbours[row].filter((other) => known[other]))] }))
      .filter(({ from }) => from.length > 0)
    if (round.length === 0) break
    for (const { row } of round) known[row] = 1
    plan.push(...round)
    waiting = waiting.filter((row) => !known[row])
  }
  return plan
}

/** Each vertex of hair, with those beside it that face much the same way: the inside of a lock is not its outside. */
export function spreadPlan(vertices: VertexReceivers): readonly Fill[] {
  const hair = vertices.figures.flatMap(({ parts }) => parts).filter(({ name }) => name === 'hair')
  const isHair = new Set(hair.flatMap(({ first, vertexOf }) => [...vertexOf.keys()].map((i) => first + i)))
  return alikePlan(vertices, ALIKE, (row) => isHair.has(row))
}

/** Each vertex in the open, with those beside it that face nearly its way. */
export const evenPlan = (vertices: VertexReceivers, lists: HitLists): readonly Fill[] =>
  alikePlan(vertices, NEARLY_ALIKE, (row) => !isBuried(lists, row))

function alikePlan(
  { edges, startOf }: VertexReceivers,
  leastCosine: number,
  isMeant: (row: number) => boolean,
): readonly Fill[] {
  const beside = new Map<number, Set<number>>()
  const join = (row: number, other: number): void => {
    const known = beside.get(row)
    if (known) known.add(other)
    else beside.set(row, new Set([other]))
  }
  for (const [a, b] of edges) {
    if (!isMeant(a) || !isMeant(b)) continue
    const [one, other] = [startOf(a), startOf(b)]
    if (!one || !other || dot(one.normal, other.normal) < leastCosine) continue
    join(a, b)
    join(b, a)
  }
  return [...beside].map(([row, from]) => ({ row, from: [...from] }))
}

/** Cosines of the angle up to which two neighbours count as one side of a lock, and as one place of a face. */
const ALIKE = 0.5
const NEARLY_ALIKE = 0.85
