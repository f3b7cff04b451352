import type { RigSource } from '../rig'
import { hash32, type RayCaster, sobol } from '../space'
import { directIrradiance, type LitPool, litPools } from './direct'
import { pointOfElement } from './elements'
import { type Layout, layOut } from './layout'
import { addLinked, castLinks, type PanelLinks } from './links'
import { castLists, elementStart, type HitLists } from './lists'
import { type Coats, coatsOf } from './materials'
import { addGlossy, type MetalPoint, metalPoint, nearSides, spreadPlaces, thrownElements, virtualPoint } from './panels'
import { type ListQuality, SETTLED, SETTLED_LISTS, type SolveQuality } from './quality'
import type { BounceScene } from './scene'
import { listMean, type Solution, solveRadiosity } from './solve'
import type { IndirectLight, Receivers, VirtualPoint } from './types'
import { type Fill, fillPlan, isBuried, type VertexReceivers, vertexReceivers } from './vertices'

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
  readonly vertexLists: HitLists
  readonly links: PanelLinks
  readonly fill: readonly Fill[]
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
  const sides = nearSides(layout, scene.rig, linkEdge)
  const patchWork = layout.elements.length * patchRays
  const listWork = patchWork + vertices.count * vertexRays
  const all = listWork + vertices.count * sides.reduce((sum, { cells }) => sum + cells.length, 0)
  const lists = yield* scaled(
    castLists(layout.elements.length, patchRays, elementStart(layout), layout, caster),
    0,
    patchWork / all,
  )
  const vertexLists = yield* scaled(
    castLists(vertices.count, vertexRays, vertices.startOf, layout, caster),
    patchWork / all,
    listWork / all,
  )
  const openStart = (row: number) => (isBuried(vertexLists, row) ? null : vertices.startOf(row))
  const links = yield* scaled(
    castLinks(vertices.count, openStart, sides, layout.elements.length, caster),
    listWork / all,
    1,
  )
  const fill = fillPlan(vertices, vertexLists)
  return bounceOver({ scene, caster, layout, lists, vertices, vertexLists, links, fill })
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
  const { scene, layout, vertices } = prepared
  const coats = coatsOf(scene, layout)
  const steps = (source: RigSource, quality: SolveQuality = SETTLED) => solveSteps(prepared, coats, source, quality)
  return {
    receivers: {
      grids: layout.grids,
      patchCount: layout.patchCount,
      figures: vertices.figures,
      vertexCount: vertices.count,
    },
    validShares: validShares(prepared),
    solve: (source, quality) => finish(steps(source, quality)),
    solveSteps: steps,
    repainted: (next) => bounceOver({ ...prepared, scene: next }),
  }
}

function validShares({ layout, lists, vertexLists }: Prepared): ValidShares {
  const mean = (list: HitLists, rows: readonly number[]) =>
    rows.length > 0 ? rows.reduce((sum, row) => sum + list.valid[row], 0) / (rows.length * list.rays) : 1
  const patches = [...layout.elements.keys()]
  const vertices = [...vertexLists.valid.keys()]
  const open = vertices.filter((row) => !isBuried(vertexLists, row))
  return {
    patches: mean(lists, patches.slice(0, layout.patchCount)),
    clusters: mean(lists, patches.slice(layout.patchCount)),
    vertices: mean(vertexLists, open),
    buriedVertices: vertices.length > 0 ? 1 - open.length / vertices.length : 0,
  }
}

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
  const reflected = reflectedFirst(coats, direct, glossy, thrown, source)
  const solution = solveRadiosity(lists, coats.reflectance, reflected)
  yield 0.9
  const patches = solution.arrived.slice(0, 3 * layout.patchCount)
  for (let k = 0; k < patches.length; k++) patches[k] += glossy[k] * source.colour[k % 3]
  return {
    sourceId: source.id,
    patches,
    vertices: onVertices(prepared, solution, thrown),
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
    const white = (thrown[element] === 1 ? 0 : direct[element]) + glossy[k]
    return rho * white * colour[k % 3]
  })
}

/** Links to near matt panels, and list means of all else but thrown panels; buried vertices from their neighbours. */
function onVertices(
  { vertices, vertexLists, links, fill }: Prepared,
  { radiosity }: Solution,
  thrown: Uint8Array,
): Float32Array {
  const sent = without(radiosity, thrown)
  const listed = without(sent, links.linked)
  const light = new Float32Array(3 * vertices.count)
  for (let row = 0; row < vertices.count; row++) {
    listMean(vertexLists, row, listed, light, row)
    addLinked(links, row, sent, light)
  }
  for (const { row, from } of fill)
    for (let band = 0; band < 3; band++)
      light[3 * row + band] = from.reduce((sum, other) => sum + light[3 * other + band], 0) / from.length
  return light
}

/** Three bands an element, black where left out. */
function without(values: Float32Array, leftOut: Uint8Array): Float32Array {
  const kept = values.slice()
  for (const [element, isOut] of leftOut.entries()) if (isOut) kept.fill(0, 3 * element, 3 * element + 3)
  return kept
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
