import { dot, type Mesh } from '../space'
import type { Layout } from './layout'
import type { HitLists } from './lists'
import type { BounceScene } from './scene'
import { type RayStart, type Shots, type VertexShots, vertexStart } from './shots'
import type { FigureReceivers } from './types'

/** Receivers on the sitters: every vertex of every part's proxy, with the mesh's own smooth normal. */
export interface VertexReceivers {
  readonly figures: readonly FigureReceivers[]
  readonly count: number
  /** null where every triangle round the vertex is buried. */
  startOf(row: number): RayStart | null
  /** The same of the rays from it. */
  shotsOf(row: number): Shots | null
  /** Pairs of receivers joined by an edge of a proxy. */
  readonly edges: readonly (readonly [number, number])[]
}

export function vertexReceivers({ owners, rig }: BounceScene, { buried }: Layout, shots: VertexShots): VertexReceivers {
  const starts: (RayStart | null)[] = []
  const places: [body: number, vertex: number][] = []
  const edges: [number, number][] = []
  const figures = rig.figures.map((figure): FigureReceivers => {
    const parts = owners
      .filter((owner) => owner.kind === 'part')
      .filter((owner) => owner.figure === figure)
      .map((owner) => {
        const { part, mesh } = owner
        const first = starts.length
        const open = openVertices(mesh, buried.get(owner))
        const body = owners.indexOf(owner)
        const { vertexOf, joined } = netOf(mesh.indices)
        for (const vertex of vertexOf) {
          starts.push(open[vertex] ? vertexStart(mesh, vertex) : null)
          places.push([body, vertex])
        }
        for (const [a, b] of joined) edges.push([first + a, first + b])
        return { name: part.name, first, vertexOf }
      })
    return { figureId: figure.id, parts }
  })
  return {
    figures,
    count: starts.length,
    startOf: (row) => starts[row],
    shotsOf: (row) => starts[row] && shots.from(...places[row]),
    edges,
  }
}

/** The vertices of a proxy, and which of them an edge joins, by their numbers among those: each pair once. */
interface Net {
  readonly vertexOf: Uint32Array
  readonly joined: readonly (readonly [number, number])[]
}

/** By the record of the triangles, which a pose keeps. */
const nets = new WeakMap<Uint32Array, Net>()

function netOf(indices: Uint32Array): Net {
  const before = nets.get(indices)
  if (before) return before
  const vertexOf = Uint32Array.from(new Set(indices)).sort()
  const numberOf = new Map([...vertexOf].map((vertex, i) => [vertex, i]))
  const seen = new Set<number>()
  const joined: [number, number][] = []
  for (let i = 0; i < indices.length; i++) {
    const ends = [indices[i], indices[i % 3 === 2 ? i - 2 : i + 1]].map((vertex) => numberOf.get(vertex)!)
    const [a, b] = [Math.min(...ends), Math.max(...ends)]
    if (seen.has(a * vertexOf.length + b)) continue
    seen.add(a * vertexOf.length + b)
    joined.push([a, b])
  }
  const net = { vertexOf, joined }
  nets.set(indices, net)
  return net
}

function openVertices({ indices, positions }: Mesh, buried: Uint8Array | undefined): Uint8Array {
  const open = new Uint8Array(positions.length / 3)
  for (let i = 0; i < indices.length; i++) if (!buried?.[Math.floor(i / 3)]) open[indices[i]] = 1
  return open
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
  const beside = new Map<number, number[]>()
  const join = (row: number, other: number): void => {
    const known = beside.get(row)
    if (known) known.push(other)
    else beside.set(row, [other])
  }
  for (const [a, b] of edges) {
    if (!isMeant(a) || !isMeant(b)) continue
    const [one, other] = [startOf(a), startOf(b)]
    if (!one || !other || dot(one.normal, other.normal) < leastCosine) continue
    join(a, b)
    join(b, a)
  }
  return [...beside].map(([row, from]) => ({ row, from }))
}

/** Cosines of the angle up to which two neighbours count as one side of a lock, and as one place of a face. */
const ALIKE = 0.5
const NEARLY_ALIKE = 0.85
