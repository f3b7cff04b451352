/** Places of a sitting at which the two routes are compared, and what kind of place each is (physics.md's classes). */
import { directAt, type MeterScene } from '../../src/meter'
import type { Probe } from '../../src/render'
import type { Rig, Surface } from '../../src/rig'
import {
  addScaled,
  basisAround,
  cross,
  distance,
  dot,
  hash32,
  normalize,
  scale,
  sobol,
  type Vec3,
} from '../../src/space'

type LandmarkName = keyof Rig['figures'][number]['posed']['landmarks']

export interface Place {
  readonly name: string
  readonly position: Vec3
  readonly normal: Vec3
  /** Where light is taken, the mean of which is the place's: on the sitter as over a small receptor, else one. */
  readonly points: readonly Probe[]
  /** Belongs to the sitter: the picture keeps its bounce at vertices. */
  readonly onSitter: boolean
}

const LANDMARKS: readonly LandmarkName[] = [
  'foreheadCentre',
  'glabella',
  'cheekLeft',
  'cheekRight',
  'noseShadowCheekLeft',
  'noseShadowCheekRight',
  'noseTip',
  'chin',
  'neckFront',
  'shoulderLeft',
  'shoulderRight',
  'stomion',
  'mouthLeft',
]

/** Off the surface, where a receptor of no thickness lies. */
const LIFT_M = 5e-4

export function placesOf(rig: Rig): readonly Place[] {
  return [...sitterPlaces(rig), ...behindPlaces(rig), ...setPlaces(rig)]
}

/** A receptor has a size (the trial that set the tolerances took 3 × 3 pixels): so many vertices at most, within so many metres. */
const RECEPTOR_POINTS = 5
const RECEPTOR_M = 0.006

/** The vertices nearest to each landmark, with the normals that the picture shades by. */
const sitterPlaces = ({ figures: [{ posed }] }: Rig): readonly Place[] =>
  LANDMARKS.map((name) => skinPlace(posed, name, posed.landmarks[name]))

type Posed = Rig['figures'][number]['posed']

export function skinPlace(
  posed: Posed,
  name: string,
  target: { readonly position: Vec3; readonly normal: Vec3 },
): Place {
  const near: (Probe & { readonly gap: number })[] = []
  for (const { mesh } of posed.parts)
    for (let i = 0; i < mesh.positions.length; i += 3) {
      const point: Vec3 = [mesh.positions[i], mesh.positions[i + 1], mesh.positions[i + 2]]
      const gap = distance(point, target.position)
      if (gap > RECEPTOR_M) continue
      const normal = normalize([mesh.normals[i], mesh.normals[i + 1], mesh.normals[i + 2]])
      if (dot(normal, target.normal) > 0.9) near.push({ gap, position: addScaled(point, normal, LIFT_M), normal })
    }
  near.sort((one, other) => one.gap - other.gap)
  if (near.length === 0) throw new Error(`no vertex within 6 mm of ${name}`)
  // The nearest, and others spread from there to the rim; the clothes are coarser.
  const step = Math.max(1, Math.floor((near.length - 1) / (RECEPTOR_POINTS - 1)))
  const points = near.filter((_, i) => i % step === 0).slice(0, RECEPTOR_POINTS)
  return { name, position: points[0].position, normal: points[0].normal, points, onSitter: true }
}

/** Before a backdrop, within the patch of the floor on which it stands. */
const FOOT_M = 0.03

/** Three by three over what stands behind the sitter, from the floor's edge of the picture to its top; low in the middle the floor before it. */
function behindPlaces({ surfaces }: Rig): readonly Place[] {
  const behind =
    surfaces.find(({ kind }) => kind === 'backdrop') ?? surfaces.find(({ id }) => id === 'room.wall-behind-sitter')
  if (!behind) throw new Error('no backdrop and no wall behind the sitter')
  const { centre } = behind.rect
  const floor = surfaces.find(({ kind }) => kind === 'floor')
  return [-0.8, 0.02, 0.75].flatMap((x) =>
    [0.7, 1.25, 1.8].map((y) =>
      floor && behind.kind === 'backdrop' && x === 0.02 && y === 0.7
        ? { ...onFront(floor, [centre[0] + x, floor.rect.centre[1], centre[2] + FOOT_M]), name: 'foot of the backdrop' }
        : {
            ...onFront(behind, [centre[0] + x, y, centre[2]]),
            name: `${behind.kind} ${x > 0 ? '+' : ''}${x} ${y}`,
          },
    ),
  )
}

/** The floor before and beside the sitter, a wall, the ceiling, and both halves of each panel's front. */
function setPlaces({ surfaces }: Rig): readonly Place[] {
  return surfaces.flatMap((surface) => {
    const { centre, halfU, halfV } = surface.rect
    const at = (u: number, v: number, name: string): Place => ({
      ...onFront(surface, addScaled(addScaled(centre, halfU, u), halfV, v)),
      name: `${surface.id} ${name}`,
    })
    if (surface.kind === 'panel') return [at(0.1, 0.4, 'upper'), at(-0.1, -0.45, 'lower')]
    if (surface.kind === 'floor') return [at(0.1, 0.35, 'front')]
    if (surface.kind === 'ceiling') return [at(0.22, -0.3, '')]
    if (surface.id === 'room.wall-camera-left') return [at(0.1, -0.1, '')]
    return []
  })
}

export function onFront({ rect: { halfU, halfV } }: Surface, point: Vec3): Place {
  const normal = normalize(cross(halfU, halfV))
  const probe = { position: addScaled(point, normal, LIFT_M), normal }
  return { name: '', ...probe, points: [probe], onSitter: false }
}

export type PlaceClass = 'edge' | 'even' | 'smooth' | 'bounced' | 'crevice'

const DISC_M = 0.015
const RING = 8
const EVEN_STOPS = 0.02
const DIRECT_SHARE = 0.8

/** physics.md: even where direct light is 80 % or more and the reading varies by less than 0.02 stop over a 30 mm disc. */
export function classOf(scene: MeterScene, place: Place, direct: number, bounced: number): PlaceClass {
  if (place.onSitter && isInCrevice(scene, place)) return 'crevice'
  if (isOnEdge(scene, place)) return 'edge'
  if (bounced > direct) return 'bounced'
  if (direct < DIRECT_SHARE * (direct + bounced)) return 'smooth'
  return variation(scene, place, direct, bounced) < EVEN_STOPS ? 'even' : 'smooth'
}

/** Of the most that a point of the receptor gets: less is none. */
const NOTHING = 0.05

/** A hard shadow's edge runs through the receptor: where it lies is judged in millimetres, by other tests. */
function isOnEdge(scene: MeterScene, { points }: Place): boolean {
  const lights = points.map((point) => directOf(scene, point.position, point.normal))
  return Math.min(...lights) < NOTHING * Math.max(...lights)
}

function directOf(scene: MeterScene, point: Vec3, normal: Vec3): number {
  const powers = new Map(scene.rig.sources.map(({ id, axialIntensity }) => [id, axialIntensity]))
  return directAt(scene, { point, normal }, 'disc').reduce(
    (sum, { sourceId, perCandela }) => sum + perCandela * powers.get(sourceId)!,
    0,
  )
}

function variation(scene: MeterScene, { position, normal }: Place, direct: number, bounced: number): number {
  const [x, y] = basisAround(normal)
  const around = Array.from({ length: RING }, (_, i) => {
    const angle = (2 * Math.PI * i) / RING
    const point = addScaled(addScaled(position, x, DISC_M * Math.cos(angle)), y, DISC_M * Math.sin(angle))
    return bounced + directOf(scene, point, normal)
  })
  const all = [direct + bounced, ...around]
  return Math.log2(Math.max(...all) / Math.min(...all))
}

const NEAR_M = 0.03
const NEAR_RAYS = 256
/** A tenth of the hemisphere closed by skin within 3 cm: the hollow of an eye's corner, the line of the lips. */
const CLOSED_SHARE = 0.1

export const isInCrevice = (scene: MeterScene, probe: Probe): boolean =>
  shareOfLooks(scene, probe, (hit) => hit.distance < NEAR_M) > CLOSED_SHARE

/** Looks of a point outside all bodies end on no inside of one; a tenth may, where bodies of their own graze each other. */
const INSIDE_SHARE = 0.1

/** Within a body or half out of it, as skin is under a collar: no receptor can be held there. */
export const isInside = (scene: MeterScene, probe: Probe): boolean =>
  shareOfLooks(scene, probe, (hit) => hit.fromBehind) > INSIDE_SHARE

type Hit = NonNullable<ReturnType<MeterScene['caster']['nearest']>>

/** Cosine-weighted. */
function shareOfLooks({ caster }: MeterScene, { position, normal }: Probe, counts: (hit: Hit) => boolean): number {
  const [x, y] = basisAround(normal)
  let counted = 0
  for (let i = 0; i < NEAR_RAYS; i++) {
    const [u, v] = [sobol(i, 0, hash32(5, 0)), sobol(i, 1, hash32(5, 1))]
    const radius = Math.sqrt(u)
    const aside = addScaled(scale(x, radius * Math.cos(2 * Math.PI * v)), y, radius * Math.sin(2 * Math.PI * v))
    const hit = caster.nearest(position, addScaled(aside, normal, Math.sqrt(1 - u)))
    if (hit && counts(hit)) counted++
  }
  return counted / NEAR_RAYS
}
