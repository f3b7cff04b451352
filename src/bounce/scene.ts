import { type Ball, type Rig, type RigFigure, type Surface, solidMesh } from '../rig'
import { type Body, ballMesh, type Mesh } from '../space'

type GearSolid = Rig['sources'][number]['gear'][number]
type PosedPart = RigFigure['posed']['parts'][number]

/** What a body number of the ray caster stands for. */
export type BodyOwner =
  | { readonly kind: 'surface'; readonly surface: Surface }
  | { readonly kind: 'part'; readonly figure: RigFigure; readonly part: PosedPart; readonly mesh: Mesh }
  | { readonly kind: 'ball'; readonly ball: Ball; readonly mesh: Mesh }
  /** thin: lit and seen from both sides. */
  | { readonly kind: 'gear'; readonly solid: GearSolid; readonly mesh: Mesh; readonly thin: boolean }

/** The rig as bounce asks the ray caster about it: sitters by their coarse proxies. */
export interface BounceScene {
  readonly rig: Rig
  readonly bodies: readonly Body[]
  readonly owners: readonly BodyOwner[]
  /** Body numbers of each source's own gear: what it does to the source's own light is inside the emission. */
  readonly gearOf: ReadonlyMap<string, ReadonlySet<number>>
}

const BALL_RINGS = 16
const ROUND = { sides: 16, rings: 6 }

/**
 * Order: surfaces, parts of the sitters, balls, gear; so a change of gear renumbers nothing else. Parts keep the record
 * of their proxy's indices, by which a ray caster can tell a turned head from a new one.
 */
export function bounceScene(rig: Rig): BounceScene {
  const gear = rig.sources.flatMap(({ id, gear }) => gear.map((solid) => ({ id, owner: gearOwner(solid) })))
  const owners: readonly BodyOwner[] = [
    ...rig.surfaces.map((surface) => ({ kind: 'surface', surface }) as const),
    ...rig.figures.flatMap((figure) => figure.posed.parts.map((part) => partOwner(figure, part))),
    ...rig.balls.map(ballOwner),
    ...gear.map(({ owner }) => owner),
  ]
  const first = owners.length - gear.length
  const gearOf = new Map<string, Set<number>>(rig.sources.map(({ id }) => [id, new Set()]))
  gear.forEach(({ id }, i) => {
    gearOf.get(id)?.add(first + i)
  })
  return { rig, bodies: owners.map(bodyOf), owners, gearOf }
}

const bodyOf = (owner: BodyOwner): Body =>
  owner.kind === 'surface'
    ? { kind: 'rectangle', rect: owner.surface.rect, oneSided: owner.surface.back === null }
    : { kind: 'mesh', mesh: owner.mesh }

/** Meshes of unchanged records stay the same objects, so the ray caster keeps its trees. */
const kept = <K extends object, V>(make: (key: K) => V): ((key: K) => V) => {
  const known = new WeakMap<K, V>()
  return (key) => {
    const before = known.get(key)
    if (before) return before
    const value = make(key)
    known.set(key, value)
    return value
  }
}

const proxyMesh = kept(
  ({ mesh, part }: PosedPart): Mesh => ({
    positions: mesh.positions,
    normals: mesh.normals,
    indices: part.proxyIndices,
  }),
)
const partOwner = (figure: RigFigure, part: PosedPart): BodyOwner => ({
  kind: 'part',
  figure,
  part,
  mesh: proxyMesh(part),
})
const ballOwner = kept(
  (ball: Ball): BodyOwner => ({ kind: 'ball', ball, mesh: ballMesh(ball.centre, ball.radiusM, { rings: BALL_RINGS }) }),
)
const gearOwner = kept(
  (solid: GearSolid): BodyOwner => ({
    kind: 'gear',
    solid,
    mesh: solidMesh(solid, ROUND),
    thin: solid.kind !== 'cylinder',
  }),
)
