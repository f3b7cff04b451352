import type { Rgb } from '../photometry'
import { type Ball, finishOf, type Material, type Rig, type RigFigure, type Surface, solidMesh } from '../rig'
import { type Body, ballMesh, type Hit, type Mesh, type Rect, type Vec3 } from '../space'

type GearSolid = Rig['sources'][number]['gear'][number]
type PosedPart = RigFigure['posed']['parts'][number]

/** What a body number of the ray caster stands for. */
export type BodyMeaning =
  | { readonly kind: 'figure'; readonly figure: RigFigure; readonly part: PosedPart }
  | { readonly kind: 'surface'; readonly surface: Surface }
  | { readonly kind: 'ball'; readonly ball: Ball }
  | { readonly kind: 'gear'; readonly sourceId: string; readonly solid: GearSolid }

/** The rig as the ray caster wants it, and the way back from a body number to the thing it is. */
export interface RigBodies {
  readonly bodies: readonly Body[]
  readonly meanings: readonly BodyMeaning[]
  /** Body numbers of each source's own gear: its own light has met them already, inside its emission. */
  readonly gearOf: ReadonlyMap<string, ReadonlySet<number>>
}

/** Of records that were met before: a caster that sees the same mesh again keeps its tree. Rigs are never altered. */
const meshes = new WeakMap<object, Mesh>()
function meshFor<T extends object>(record: T, make: (record: T) => Mesh): Mesh {
  const before = meshes.get(record)
  if (before) return before
  const mesh = make(record)
  meshes.set(record, mesh)
  return mesh
}

/**
 * Every opaque thing of the rig: sitters on their full mesh, set surfaces, balls, and the gear of all sources. Not the frames
 * of glasses: a receptor is twelve times as wide as a rim, so that no meter is held in the shadow of one, and no pattern is
 * named by it.
 */
export function bodiesOf(rig: Rig): RigBodies {
  const bodies: Body[] = []
  const meanings: BodyMeaning[] = []
  const gearOf = new Map<string, Set<number>>()
  const push = (body: Body, meaning: BodyMeaning) => {
    bodies.push(body)
    meanings.push(meaning)
  }
  for (const figure of rig.figures)
    for (const part of figure.posed.parts.filter(({ name }) => name !== 'glasses'))
      push({ kind: 'mesh', mesh: part.mesh }, { kind: 'figure', figure, part })
  for (const surface of rig.surfaces)
    push({ kind: 'rectangle', rect: surface.rect, oneSided: surface.back === null }, { kind: 'surface', surface })
  for (const ball of rig.balls) push({ kind: 'mesh', mesh: meshFor(ball, meshOfBall) }, { kind: 'ball', ball })
  for (const source of rig.sources) {
    const own = new Set<number>()
    for (const solid of source.gear) {
      own.add(bodies.length)
      push(bodyOfSolid(solid), { kind: 'gear', sourceId: source.id, solid })
    }
    gearOf.set(source.id, own)
  }
  return { bodies, meanings, gearOf }
}

const meshOfBall = ({ centre, radiusM }: Ball): Mesh => ballMesh(centre, radiusM)
const meshOfSolid = (solid: GearSolid): Mesh => solidMesh(solid)

const bodyOfSolid = (solid: GearSolid): Body =>
  solid.kind === 'rectangle'
    ? { kind: 'rectangle', rect: solid.rect, oneSided: false }
    : { kind: 'mesh', mesh: meshFor(solid, meshOfSolid) }

/** How the met side reflects; null where a ray came out of the inside of a closed body and must die. */
export function materialAt(meaning: BodyMeaning, hit: Hit, direction: Vec3): Material | null {
  switch (meaning.kind) {
    case 'figure':
      return hit.fromBehind ? null : { kind: 'matt', albedo: figureAlbedo(meaning.figure, meaning.part, hit) }
    case 'ball':
      return hit.fromBehind ? null : meaning.ball.material
    case 'gear':
      return finishOf(meaning.solid, meetsBack(meaning.solid, hit, direction) ? 'back' : 'front')
    case 'surface':
      return meetsFront(meaning.surface.rect, direction) ? meaning.surface.front : meaning.surface.back
  }
}

const meetsBack = (solid: GearSolid, hit: Hit, direction: Vec3): boolean =>
  solid.kind === 'rectangle' ? !meetsFront(solid.rect, direction) : hit.fromBehind

function meetsFront({ halfU: u, halfV: v }: Rect, d: Vec3): boolean {
  const along =
    d[0] * (u[1] * v[2] - u[2] * v[1]) + d[1] * (u[2] * v[0] - u[0] * v[2]) + d[2] * (u[0] * v[1] - u[1] * v[0])
  return along < 0
}

/** Base reflectance of the part times the paint of the met triangle's corners. */
function figureAlbedo(figure: RigFigure, { name, mesh, part }: PosedPart, hit: Hit): Rgb {
  const base = figure.albedo[name]
  return [0, 1, 2].map((band) => base[band] * interpolated(mesh, part.tint, hit, band)) as unknown as Rgb
}

function interpolated(mesh: Mesh, values: Float32Array, hit: Hit, band: number): number {
  let sum = 0
  for (let corner = 0; corner < 3; corner++)
    sum += hit.barycentric[corner] * values[3 * mesh.indices[3 * hit.triangle + corner] + band]
  return sum
}
