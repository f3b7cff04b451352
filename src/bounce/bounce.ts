import { mirrorOf, mirrorSide, type RigSource } from '../rig'
import { hash32, type RayCaster, sobol } from '../space'
import { directIrradiance, type LitPool, litPools } from './direct'
import { pointOfElement } from './elements'
import { type Layout, layOut } from './layout'
import { castLinks } from './links'
import { castLists, elementStart, type HitLists } from './lists'
import { type Coats, coatsOf } from './materials'
import { mirrorSides } from './mirror'
import { addGlossy, type MetalPoint, metalPoint, nearSides, spreadPlaces, thrownElements, virtualPoint } from './panels'
import { type ListQuality, SETTLED, SETTLED_LISTS, type SolveQuality } from './quality'
import { type Rows, receivedByRows, without } from './receive'
import type { BounceScene } from './scene'
import { type SolidReceivers, solidReceivers } from './solids'
import { type Solution, solveRadiosity } from './solve'
import type { IndirectLight, Receivers, VirtualPoint } from './types'
import { fillPlan, isBuried, spreadPlan, type VertexReceivers, vertexReceivers } from './vertices'

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
interface Prepared {
  readonly scene: BounceScene
  readonly caster: RayCaster
  readonly layout: Layout
  readonly lists: HitLists
  readonly vertices: VertexReceivers
  readonly solids: SolidReceivers
  /** The vertices, then the solids' starts. */
  readonly rows: Rows
}

/** caster: over scene.bodies, in that order. */
export const createBounce = (scene: BounceScene, caster: RayCaster, quality: ListQuality = SETTLED_LISTS): Bounce =>
  finish(bounceSteps(scene, caster, quality))

/** The lists in steps; yields the share done. */
export function* bounceSteps(
  scene: BounceScene,
  caster: RayCaster,
  { patchRays, vertexRays, linkEdge }: ListQuality = SETTLED_LISTS,
): Generator<number, Bounce> {
  const layout = layOut(scene, caster)
  const vertices = vertexReceivers(scene, layout)
  const solids = solidReceivers(scene.rig, layout.patchCount)
  const count = vertices.count + solids.starts.length
  const startOf = (row: number) => (row < vertices.count ? vertices.startOf(row) : solids.starts[row - vertices.count])
  const sides = nearSides(layout, scene.rig, linkEdge)
  const patchWork = layout.elements.length * patchRays
  const listWork = patchWork + count * vertexRays
  const all = listWork + count * sides.reduce((sum, { cells }) => sum + cells.length, 0)
  const lists = yield* scaled(
    castLists(layout.elements.length, patchRays, elementStart(layout), layout, caster),
    0,
    patchWork / all,
  )
  const rowLists = yield* scaled(castLists(count, vertexRays, startOf, layout, caster), patchWork / all, listWork / all)
  const openStart = (row: number) => (isBuried(rowLists, row) ? null : startOf(row))
  const links = yield* scaled(castLinks(count, openStart, sides, layout.elements.length, caster), listWork / all, 1)
  const solidEdges = solids.edges.map(([a, b]) => [a + vertices.count, b + vertices.count] as const)
  const fill = fillPlan({ count, edges: [...vertices.edges, ...solidEdges] }, rowLists)
  const rows = { lists: rowLists, links, fill, spread: spreadPlan(vertices) }
  return bounceOver({ scene, caster, layout, lists, vertices, solids, rows })
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
  const { scene, layout, vertices, solids } = prepared
  const coats = coatsOf(scene, layout)
  const steps = (source: RigSource, quality: SolveQuality = SETTLED) => solveSteps(prepared, coats, source, quality)
  return {
    receivers: {
      grids: [...layout.grids, ...solids.grids],
      patchCount: layout.patchCount + solids.startOf.length,
      figures: vertices.figures,
      vertexCount: vertices.count,
    },
    validShares: validShares(prepared),
    solve: (source, quality) => finish(steps(source, quality)),
    solveSteps: steps,
    repainted: (next) => bounceOver({ ...prepared, scene: next }),
  }
}

function validShares({ layout, lists, vertices: { count }, rows: { lists: rowLists } }: Prepared): ValidShares {
  const mean = (list: HitLists, rows: readonly number[]) =>
    rows.length > 0 ? rows.reduce((sum, row) => sum + list.valid[row], 0) / (rows.length * list.rays) : 1
  const patches = [...layout.elements.keys()]
  const vertices = Array.from({ length: count }, (_, row) => row)
  const open = vertices.filter((row) => !isBuried(rowLists, row))
  return {
    patches: mean(lists, patches.slice(0, layout.patchCount)),
    clusters: mean(lists, patches.slice(layout.patchCount)),
    vertices: mean(rowLists, open),
    buriedVertices: vertices.length > 0 ? 1 - open.length / vertices.length : 0,
  }
}

const NOTHING = new Float32Array(0)
/** Metal that no lamp reaches still sends on what the room gives it, so it gets points too. */
const DIM_SHARE = 0.1
/** Elements between two yields. */
const STEP = 128

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
  const glossy = yield* glossyOnElements(prepared, metal)
  const mirrored = yield* mirroredOnElements(prepared, source, pools, quality)
  const reflected = reflectedFirst(coats, direct, sumOf(glossy, mirrored), thrown, source)
  const gone = reflectedFirst(
    coats,
    direct,
    NOTHING,
    Uint8Array.from(thrown, (isThrown) => 1 - isThrown),
    source,
  )
  const solution = solveRadiosity(lists, coats.reflectance, reflected, mirrorSides(scene.rig), gone)
  yield 0.9
  const thrownOnSolids = glossyOnSolids(prepared, metal)
  return {
    sourceId: source.id,
    patches: onPatches(prepared, solution, glossy, thrownOnSolids, source),
    vertices: receivedByRows(prepared.rows, 0, prepared.vertices.count, without(solution.radiosity, thrown)),
    points: contractPoints(layout, solution, metal, source),
  }
}

/** White direct irradiance of every element, 1/m². A source's light on its own gear is already inside its emission. */
function* directOnElements(
  { scene, layout: { elements }, caster }: Prepared,
  source: RigSource,
  pools: readonly LitPool[],
  { directRays }: SolveQuality,
): Generator<number, Float32Array> {
  const own = scene.gearOf.get(source.id)
  const direct = new Float32Array(elements.length)
  for (let i = 0; i < elements.length; i++) {
    if (i % STEP === 0) yield (0.6 * i) / elements.length
    const element = elements[i]
    if (element.kind === 'cluster' && own?.has(element.body)) continue
    direct[i] = directIrradiance(pools, i, directRays, (u, v) => pointOfElement(element, u, v), caster, own)
  }
  return direct
}

/** What of the source's light comes over the mirror to every element, white, three bands, 1/m²; null: there is no mirror. */
function* mirroredOnElements(
  { scene, layout: { elements }, caster }: Prepared,
  source: RigSource,
  pools: readonly LitPool[],
  { directRays }: SolveQuality,
): Generator<number, Float32Array | null> {
  const mirror = mirrorOf(scene.rig)
  if (!mirror) return null
  const own = scene.gearOf.get(source.id)
  const mirrored = new Float32Array(3 * elements.length)
  for (let i = 0; i < elements.length; i++) {
    if (i % STEP === 0) yield 0.9
    const element = elements[i]
    const f0 = mirrorSide(mirror, pointOfElement(element, 0.5, 0.5).point)
    if (!f0) continue
    const white = directIrradiance(pools, i, directRays, (u, v) => pointOfElement(element, u, v), caster, own, mirror)
    mirrored.set([f0[0] * white, f0[1] * white, f0[2] * white], 3 * i)
  }
  return mirrored
}

const sumOf = (a: Float32Array, b: Float32Array | null): Float32Array => (b ? a.map((value, k) => value + b[k]) : a)

function metalPoints(
  { scene, layout, caster }: Prepared,
  coats: Coats,
  pools: readonly LitPool[],
  direct: Float32Array,
  thrown: Uint8Array,
  source: RigSource,
  { metalPoints: count }: SolveQuality,
): readonly MetalPoint[] {
  const chosen = [...thrown.keys()].filter((element) => thrown[element] === 1)
  const own = scene.gearOf.get(source.id)
  const mean = chosen.reduce((sum, element) => sum + direct[element], 0) / Math.max(1, chosen.length)
  const power = (element: number) => (mean > 0 ? direct[element] + DIM_SHARE * mean : 1)
  return spreadPlaces(layout, chosen, power, count).map((place, i) => metalPoint(place, i, coats, pools, caster, own))
}

/** What the metal panels' first reflection throws on every element, white, three bands, 1/m². */
function* glossyOnElements(
  { layout: { elements }, caster }: Prepared,
  metal: readonly MetalPoint[],
): Generator<number, Float32Array> {
  const glossy = new Float32Array(3 * elements.length)
  if (metal.length === 0) return glossy
  for (let i = 0; i < elements.length; i++) {
    if (i % STEP === 0) yield 0.6 + (0.3 * i) / elements.length
    for (const [k, point] of metal.entries()) {
      const at = pointOfElement(elements[i], sobol(k, 0, hash32(i, 8)), sobol(k, 1, hash32(i, 9)))
      addGlossy(point, at, caster, glossy, i)
    }
  }
  return glossy
}

/** ρ·E in the source's colour. A thrown metal's own direct light has already left it as gloss. */
function reflectedFirst(
  { reflectance }: Coats,
  direct: Float32Array,
  glossy: Float32Array,
  thrown: Uint8Array,
  { colour }: RigSource,
): Float32Array {
  return reflectance.map((rho, k) => {
    const element = Math.floor(k / 3)
    const white = (thrown[element] === 1 ? 0 : direct[element]) + (glossy[k] ?? 0)
    return rho * white * colour[k % 3]
  })
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
