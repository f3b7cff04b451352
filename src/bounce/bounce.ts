import type { RigSource } from '../rig'
import type { CasterOver } from '../space'
import { litPools } from './direct'
import { castEyes, type EyeViews, seenInEyes } from './eyes'
import {
  directOnElements,
  glossyOnElements,
  metalPoints,
  mirroredOnElements,
  reflectedFirst,
  type Setting,
  sumOf,
} from './first-light'
import { areasOf, gatherOnPatches } from './gather'
import { type CastRays, keptRays, knownRays, type Reach, reachOf } from './kept'
import { type Layout, layOut } from './layout'
import { leansOf, linkSlopes, raySlopes, type Slopes } from './leans'
import { castLinks, QUARTERS } from './links'
import { castLists, elementStart, type HitLists, type NoteRay, shotsFrom } from './lists'
import { type Coats, coatsOf } from './materials'
import { mirrorSides } from './mirror'
import { addGlossy, type MetalPoint, nearSides, thrownElements, virtualPoint } from './panels'
import { type ListQuality, SETTLED, SETTLED_LISTS, type SolveQuality } from './quality'
import { type Rows, receivedByRows, without } from './receive'
import type { BounceScene } from './scene'
import { vertexShots } from './shots'
import { type SolidReceivers, solidReceivers } from './solids'
import { type Solution, solveRadiosity } from './solve'
import type { IndirectLight, Receivers, VirtualPoint } from './types'
import { evenPlan, fillPlan, isBuried, spreadPlan, type VertexReceivers, vertexReceivers } from './vertices'

/** Bounced light of one geometry: any source, power, colour and paint over the same hit lists. */
export interface Bounce {
  readonly receivers: Receivers
  readonly validShares: ValidShares
  /** In the source's own colour at 1 cd·s. The caster may have moved gear since the lists were cast: a dragged lamp. */
  solve(source: RigSource, quality?: SolveQuality): IndirectLight
  /** The same in steps, for a worker that must hear of the next edit; yields the share done. */
  solveSteps(source: RigSource, quality?: SolveQuality): Generator<number, IndirectLight>
  /** Other reflectances on the same bodies. */
  repainted(scene: BounceScene): Bounce
  /** What the bounce of another pose may take over. */
  readonly cast: CastRays
}

/** Mean share of rays that did not end inside a body: 1 where no surface is hidden and no mesh is open. */
export interface ValidShares {
  readonly patches: number
  readonly clusters: number
  /** Of the vertices that are not buried, and the share of those that are. */
  readonly vertices: number
  readonly buriedVertices: number
}

/** Everything that a solution needs besides the source. */
interface Prepared extends Setting {
  readonly lists: HitLists
  /** Of each row of the lists, how many were cast. */
  raysOf(row: number): number
  /** As areasOf says. */
  readonly areasM2: Float32Array
  readonly reach: Reach
  readonly slopes: Slopes
  readonly vertices: VertexReceivers
  readonly solids: SolidReceivers
  readonly eyes: EyeViews
  /** The vertices, then the solids' starts. */
  readonly rows: Rows
}

/** caster: over scene.bodies, in that order. */
export const createBounce = (scene: BounceScene, caster: CasterOver, quality: ListQuality = SETTLED_LISTS): Bounce =>
  finish(bounceSteps(scene, caster, quality))

/** The lists in steps; yields the share done. */
export function* bounceSteps(
  scene: BounceScene,
  caster: CasterOver,
  {
    patchRays,
    clusterRays = patchRays,
    vertexRays,
    eyeCells = 0,
    linkEdge,
    edgeRays = QUARTERS,
    evened,
  }: ListQuality = SETTLED_LISTS,
  /** Of the same set, however the sitters sat: what their pose does not touch is taken over. */
  before: Bounce | null = null,
): Generator<number, Bounce> {
  const shots = vertexShots(scene, caster)
  const layout = layOut(scene, caster, shots)
  const vertices = vertexReceivers(scene, layout, shots)
  const solids = solidReceivers(scene.rig, layout.patchCount)
  const count = vertices.count + solids.starts.length
  const startOf = (row: number) => (row < vertices.count ? vertices.startOf(row) : solids.starts[row - vertices.count])
  const onSolids = shotsFrom((row) => solids.starts[row - vertices.count], caster)
  const shotsOf = (row: number) => (row < vertices.count ? vertices.shotsOf(row) : onSolids(row))
  const sides = nearSides(layout, scene.rig, linkEdge)
  const patchWork = layout.elements.length * patchRays
  const listWork = patchWork + count * vertexRays
  const all = listWork + count * sides.reduce((sum, { cells }) => sum + cells.length, 0)
  const kept = keptRays(before?.cast ?? null, scene)
  const { areasM2, note: noteArea } = areasOf(layout.elements.length, patchRays)
  const { reach, note: noteReach } = reachOf(scene, kept, layout.elements.length * patchRays)
  const note: NoteRay = (ray, start, direction, hit) => {
    noteArea(ray, start, direction, hit)
    noteReach(ray, start, direction, hit)
  }
  const known = kept && knownRays(kept, patchRays, areasM2, reach)
  const { slopes: rayed, note: noteSlope } = raySlopes(vertices.count, vertexRays)
  const shotsOfElement = shotsFrom(elementStart(layout), caster)
  const raysOf = (row: number) => (row < layout.patchCount ? patchRays : Math.min(clusterRays, patchRays))
  const lists = yield* scaled(
    castLists(layout.elements.length, patchRays, shotsOfElement, layout, caster, note, known, raysOf),
    0,
    patchWork / all,
  )
  const rowLists = yield* scaled(
    castLists(count, vertexRays, shotsOf, layout, caster, noteSlope),
    patchWork / all,
    listWork / all,
  )
  const openStart = (row: number) => (isBuried(rowLists, row) ? null : startOf(row))
  const links = yield* scaled(
    castLinks(count, openStart, sides, layout.elements.length, caster, edgeRays),
    listWork / all,
    1,
  )
  const eyes = yield* scaled(castEyes(scene.rig, layout, caster, eyeCells), 1, 1)
  const solidEdges = solids.edges.map(([a, b]) => [a + vertices.count, b + vertices.count] as const)
  const fill = fillPlan({ count, edges: [...vertices.edges, ...solidEdges] }, rowLists)
  const even = evened ? evenPlan(vertices, rowLists) : []
  const rows = { lists: rowLists, links, fill, spread: spreadPlan(vertices), even }
  const slopes = { rays: rayed, links: linkSlopes(links, vertices, layout.elements) }
  return bounceOver({ scene, caster, layout, lists, raysOf, areasM2, reach, vertices, solids, eyes, rows, slopes })
}

/** Runs steps to their end. */
export function finish<T>(steps: Generator<number, T>): T {
  for (;;) {
    const { done, value } = steps.next()
    if (done) return value
  }
}

function* scaled<T>(steps: Generator<number, T>, from: number, to: number): Generator<number, T> {
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
    yield from + (to - from) * step.value
  }
}

function bounceOver(prepared: Prepared): Bounce {
  const { scene, layout, lists, areasM2, reach, vertices, solids, eyes } = prepared
  const coats = coatsOf(scene, layout)
  const steps = (source: RigSource, quality: SolveQuality = SETTLED) => solveSteps(prepared, coats, source, quality)
  return {
    receivers: {
      grids: [...layout.grids, ...solids.grids],
      patchCount: layout.patchCount + solids.startOf.length,
      figures: vertices.figures,
      vertexCount: vertices.count,
      eyes: { cells: eyes.cells, maps: eyes.maps },
    },
    validShares: validShares(prepared),
    solve: (source, quality) => finish(steps(source, quality)),
    solveSteps: steps,
    cast: { lists, areasM2, patchCount: layout.patchCount, reach },
    repainted: (next) => bounceOver({ ...prepared, scene: next }),
  }
}

function validShares({ layout, lists, raysOf, vertices: { count }, rows: { lists: rowLists } }: Prepared): ValidShares {
  const mean = (list: HitLists, rows: readonly number[], cast = (_: number) => list.rays) =>
    rows.length > 0 ? rows.reduce((sum, row) => sum + list.valid[row] / cast(row), 0) / rows.length : 1
  const patches = [...layout.elements.keys()]
  const vertices = Array.from({ length: count }, (_, row) => row)
  const open = vertices.filter((row) => !isBuried(rowLists, row))
  return {
    patches: mean(lists, patches.slice(0, layout.patchCount), raysOf),
    clusters: mean(lists, patches.slice(layout.patchCount), raysOf),
    vertices: mean(rowLists, open),
    buriedVertices: vertices.length > 0 ? 1 - open.length / vertices.length : 0,
  }
}

const NOTHING = new Float32Array(0)

function* solveSteps(
  prepared: Prepared,
  coats: Coats,
  source: RigSource,
  quality: SolveQuality,
): Generator<number, IndirectLight> {
  const { scene, layout, lists } = prepared
  const pools = litPools(source)
  const thrown =
    quality.metalPoints > 0 ? thrownElements(layout, scene.rig, coats) : new Uint8Array(layout.elements.length)
  const direct = yield* directOnElements(prepared, source, pools, quality)
  const metal = metalPoints(prepared, coats, pools, direct, thrown, source, quality)
  const glossy = yield* glossyOnElements(prepared, metal.onSet)
  const mirrored = yield* mirroredOnElements(prepared, source, pools, quality)
  const reflected = reflectedFirst(coats, direct, sumOf(glossy, mirrored), thrown, source)
  const gone = reflectedFirst(
    coats,
    direct,
    NOTHING,
    Uint8Array.from(thrown, (isThrown) => 1 - isThrown),
    source,
  )
  const solution = solveRadiosity(lists, coats.reflectance, reflected, {
    leastChange: quality.leastChange,
    mirrors: mirrorSides(scene.rig),
    thrown: gone,
  })
  const arrived =
    quality.gatherPoints > 0
      ? yield* scaled(gatherOnPatches(prepared, solution, quality.gatherPoints), 0.9, 1)
      : solution.arrived
  const onVertices = without(solution.radiosity, thrown)
  const thrownOnSolids = glossyOnSolids(prepared, metal.onSet)
  return {
    sourceId: source.id,
    patches: onPatches(prepared, { ...solution, arrived }, glossy, thrownOnSolids, source),
    vertices: receivedByRows(prepared.rows, 0, prepared.vertices.count, onVertices),
    leans: leansOf(prepared.rows, prepared.slopes, prepared.vertices, onVertices, quality.leanRays),
    eyes: seenInEyes(prepared.eyes, solution, gone),
    points: contractPoints(layout, solution, metal.onSitters, source),
  }
}

function glossyOnSolids({ solids: { starts }, caster }: Prepared, metal: readonly MetalPoint[]): Float32Array {
  const glossy = new Float32Array(3 * starts.length)
  for (const point of metal) for (const [i, start] of starts.entries()) addGlossy(point, start, caster, glossy, i)
  return glossy
}

/** All light that bounced, on the patches and then on the places of the solids: the metal panels' own throw is in it. */
function onPatches(
  { layout, solids, vertices, rows }: Prepared,
  { radiosity, arrived }: Solution,
  glossy: Float32Array,
  glossyOnSolids: Float32Array,
  { colour }: RigSource,
): Float32Array {
  const first = 3 * layout.patchCount
  const light = new Float32Array(first + 3 * solids.startOf.length)
  for (let k = 0; k < first; k++) light[k] = arrived[k] + glossy[k] * colour[k % 3]
  const received = receivedByRows(rows, vertices.count, vertices.count + solids.starts.length, radiosity)
  for (const [place, start] of solids.startOf.entries())
    for (let band = 0; band < 3; band++)
      light[first + 3 * place + band] = received[3 * start + band] + glossyOnSolids[3 * start + band] * colour[band]
  return light
}

function contractPoints(
  { elements }: Layout,
  { radiosity }: Solution,
  metal: readonly MetalPoint[],
  { colour }: RigSource,
): readonly VirtualPoint[] {
  return metal.map((point) => {
    const element = elements[point.element]
    return virtualPoint(point, element.kind === 'patch' ? element.surfaceId : '', radiosity, colour)
  })
}
