import { mirrorOf, type RigFigure, type Surface } from '../rig'
import { addScaled, type CasterOver, dot, length, type Mesh, scale, type Vec3 } from '../space'
import { buriedTriangles } from './burial'
import { type Clustering, clusterTriangles, triangleAreas } from './clusters'
import { type Cut, cutBy, lineOf } from './cut'
import { gapBefore, isRoom, normalOf, patchEdge, roomPatchEdge } from './edges'
import type { Cluster, Element, Patch } from './elements'
import { checkNumbers, mirrorElements } from './mirror'
import type { BodyOwner, BounceScene } from './scene'
import { vertexShots } from './shots'
import type { PatchGrid } from './types'

type FigurePart = RigFigure['posed']['parts'][number]['part']

/** A triangle or side that belongs to no element: the inside of a closed body. */
export const NO_ELEMENT = 0xffff

/** All elements (patches first, in the order of the grids; then clusters; then parts behind sheets) and which of them a ray has met. */
export interface Layout {
  readonly elements: readonly Element[]
  readonly patchCount: number
  readonly grids: readonly PatchGrid[]
  /** Grids of walls that a backdrop hangs close before: little light finds its way there, from few places. */
  readonly pockets: ReadonlySet<PatchGrid>
  /** Elements that are mirrors, and of which side. */
  readonly mirrors: ReadonlyMap<number, 'front' | 'back'>
  /** Of each part of a sitter: triangles that lie inside a closed body. */
  readonly buried: ReadonlyMap<BodyOwner, Uint8Array>
  /** Element number of a met point of a body, NO_ELEMENT where it is the inside of something. */
  elementAt(body: number, triangle: number, fromBehind: boolean, point: Vec3, direction: Vec3): number
}

const FIGURE_CLUSTERS = 600
const FEWEST_CLUSTERS = 4
const BALL_CLUSTERS = 24
const GEAR_CLUSTERS = 4

interface SurfaceMap {
  readonly surface: Surface
  readonly normal: Vec3
  readonly u: Vec3
  readonly v: Vec3
  readonly front: PatchGrid
  readonly back: PatchGrid | null
  /** By the number of the patch that a sheet stands on: how it is cut, and the number of the part behind. */
  readonly cuts: Map<number, Cut & { readonly number: number }>
}

interface MeshMap {
  readonly front: Uint16Array
  readonly back: Uint16Array | null
}

export function layOut(scene: BounceScene, caster: CasterOver, shots = vertexShots(scene, caster)): Layout {
  const elements: Element[] = []
  const grids: PatchGrid[] = []
  const roomPatchM = roomPatchEdge(scene)
  const backdrops = scene.rig.surfaces.filter(({ kind }) => kind === 'backdrop')
  const wanted = clustersOf(scene)
  const buried = buriedTriangles(scene, shots, caster)
  const maps = scene.owners.map((owner, body) => {
    if (owner.kind === 'surface')
      return addSurface(owner.surface, patchEdge(owner.surface, scene, roomPatchM), backdrops, grids, elements)
    const clustering = clusteringOf(owner, wanted.get(owner) ?? FEWEST_CLUSTERS)
    return addMesh(owner, body, clustering, buried.get(owner), elements)
  })
  for (const map of maps) if ('surface' in map && isRoom(map.surface)) addCuts(map, scene.rig.surfaces, elements)
  checkNumbers(elements, mirrorOf(scene.rig))
  return {
    elements,
    mirrors: mirrorElements(scene.rig, { grids }),
    grids,
    pockets: new Set(
      maps.flatMap((map) => ('surface' in map && gapBefore(map.surface, scene) !== null ? map.front : [])),
    ),
    buried,
    patchCount: grids.reduce((sum, { columns, rows }) => sum + columns * rows, 0),
    elementAt(body, triangle, fromBehind, point, direction) {
      const map = maps[body]
      if ('surface' in map) return patchAt(map, point, direction)
      return fromBehind ? (map.back?.[triangle] ?? NO_ELEMENT) : map.front[triangle]
    },
  }
}

function addSurface(
  surface: Surface,
  edge: number,
  backdrops: readonly Surface[],
  grids: PatchGrid[],
  elements: Element[],
): SurfaceMap {
  const { rect, back } = surface
  const columns = Math.max(1, Math.round((2 * length(rect.halfU)) / edge))
  const rows = Math.max(1, Math.round((2 * length(rect.halfV)) / edge))
  const normal = normalOf(rect)
  const add = (side: 'front' | 'back'): PatchGrid => {
    const plain = { surfaceId: surface.id, side, columns, rows, first: elements.length }
    const sheet = isRoom(surface) ? lineOf(rect, plain, backdrops) : undefined
    const grid: PatchGrid = sheet ? { ...plain, sheet } : plain
    grids.push(grid)
    for (let row = 0; row < rows; row++)
      for (let column = 0; column < columns; column++)
        elements.push(patchOf(surface, grid, column, row, side === 'front' ? normal : scale(normal, -1)))
    return grid
  }
  return {
    surface,
    normal,
    u: scale(rect.halfU, 1 / dot(rect.halfU, rect.halfU)),
    v: scale(rect.halfV, 1 / dot(rect.halfV, rect.halfV)),
    front: add('front'),
    back: back && add('back'),
    cuts: new Map(),
  }
}

/** The number in the grid stays with the part before the sheet; the part behind gets one after all others. */
function addCuts({ front, cuts }: SurfaceMap, surfaces: readonly Surface[], elements: Element[]): void {
  const sheets = surfaces.filter((surface) => !isRoom(surface))
  for (let number = front.first; number < front.first + front.columns * front.rows; number++) {
    const patch = elements[number]
    const cut = patch.kind === 'patch' && cutBy(patch, sheets)
    if (!cut) continue
    elements[number] = cut.before
    cuts.set(number, { ...cut, number: elements.push(cut.behind) - 1 })
  }
}

function patchOf(
  { id, rect }: Surface,
  { columns, rows }: PatchGrid,
  column: number,
  row: number,
  normal: Vec3,
): Patch {
  const middle = addScaled(rect.centre, rect.halfU, (2 * column + 1) / columns - 1)
  const halfU = scale(rect.halfU, 1 / columns)
  const halfV = scale(rect.halfV, 1 / rows)
  return {
    kind: 'patch',
    surfaceId: id,
    areaM2: 4 * length(halfU) * length(halfV),
    normal,
    centre: addScaled(middle, rect.halfV, (2 * row + 1) / rows - 1),
    halfU,
    halfV,
  }
}

function patchAt({ surface, normal, u, v, front, back, cuts }: SurfaceMap, p: Vec3, d: Vec3): number {
  const grid = dot(normal, d) < 0 ? front : back
  if (!grid) return NO_ELEMENT
  const [cx, cy, cz] = surface.rect.centre
  const [x, y, z] = [p[0] - cx, p[1] - cy, p[2] - cz]
  const a = (0.5 + 0.5 * (u[0] * x + u[1] * y + u[2] * z)) * grid.columns
  const b = (0.5 + 0.5 * (v[0] * x + v[1] * y + v[2] * z)) * grid.rows
  const column = Math.min(grid.columns - 1, Math.max(0, Math.floor(a)))
  const row = Math.min(grid.rows - 1, Math.max(0, Math.floor(b)))
  const number = grid.first + row * grid.columns + column
  const cut = cuts.size > 0 ? cuts.get(number) : undefined
  return cut?.isBehind(p) ? cut.number : number
}

type MeshOwner = Exclude<BodyOwner, { kind: 'surface' }>

/** Clusters of each body: the sitter's shared out by area, hidden or not. */
function clustersOf({ owners }: BounceScene): ReadonlyMap<BodyOwner, number> {
  const wanted = new Map<BodyOwner, number>()
  const total = new Map<string, number>()
  const parts = owners.flatMap((owner) =>
    owner.kind === 'part' ? [{ owner, area: restOf(owner.part.part).areaM2 }] : [],
  )
  for (const { owner, area } of parts) total.set(owner.figure.id, (total.get(owner.figure.id) ?? 0) + area)
  for (const { owner, area } of parts) {
    const share = Math.round((FIGURE_CLUSTERS * area) / total.get(owner.figure.id)!)
    wanted.set(owner, Math.max(FEWEST_CLUSTERS, share))
  }
  for (const owner of owners) {
    if (owner.kind === 'ball') wanted.set(owner, BALL_CLUSTERS)
    if (owner.kind === 'gear') wanted.set(owner, GEAR_CLUSTERS)
  }
  return wanted
}

interface Rest {
  readonly mesh: Mesh
  readonly areaM2: number
  readonly clusterings: Map<number, Clustering>
}

/** Of a part at rest, so by the part alone: whatever its pose, it has the same groups. */
const known = new WeakMap<FigurePart, Rest>()

function restOf(part: FigurePart): Rest {
  const before = known.get(part)
  if (before) return before
  const { positions, normals } = part.mesh
  const mesh = { positions, normals, indices: part.proxyIndices }
  const rest = { mesh, areaM2: triangleAreas(mesh).reduce((sum, area) => sum + area, 0), clusterings: new Map() }
  known.set(part, rest)
  return rest
}

function clusteringOf(owner: MeshOwner, wanted: number): Clustering {
  if (owner.kind !== 'part') return clusterTriangles(owner.mesh, wanted)
  const { mesh, clusterings } = restOf(owner.part.part)
  const clustering = clusterings.get(wanted) ?? clusterTriangles(mesh, wanted)
  clusterings.set(wanted, clustering)
  return clustering
}

function addMesh(
  owner: MeshOwner,
  body: number,
  clustering: Clustering,
  buried: Uint8Array | undefined,
  elements: Element[],
): MeshMap {
  const groups = openTriangles(clustering, buried)
  const areas = triangleAreas(owner.mesh)
  const add = (side: 1 | -1): Uint16Array => {
    const numbers = groups.map((triangles) => {
      const element = clusterElement(owner.mesh, body, areas, triangles, side)
      return element ? elements.push(element) - 1 : NO_ELEMENT
    })
    return clustering.of.map((cluster) => numbers[cluster])
  }
  return { front: add(1), back: owner.kind === 'gear' && owner.thin ? add(-1) : null }
}

/** Of each cluster, the triangles that are not buried. */
function openTriangles({ of, count }: Clustering, buried: Uint8Array | undefined): readonly number[][] {
  const groups: number[][] = Array.from({ length: count }, () => [])
  for (const [triangle, cluster] of of.entries()) if (!buried?.[triangle]) groups[cluster].push(triangle)
  return groups
}

function clusterElement(
  mesh: Mesh,
  body: number,
  areas: Float64Array,
  triangles: readonly number[],
  side: 1 | -1,
): Cluster | null {
  const areaM2 = triangles.reduce((sum, t) => sum + areas[t], 0)
  if (areaM2 <= 0) return null
  let sum = 0
  const shares = Float64Array.from(triangles, (t) => {
    sum += areas[t]
    return sum / areaM2
  })
  return { kind: 'cluster', body, areaM2, mesh, side, triangles: Uint32Array.from(triangles), shares }
}
