import { blockedByCylinder, type Emission, gatePass, luminanceOf } from '../photometry'
import { type Emitter, type Mirror, mirrorMeets, type RigSource, reflectedDirection, reflectedPoint } from '../rig'
import { directionToWorld, dot, hash32, pointToLocal, pointToWorld, type RayCaster, sobol, type Vec3 } from '../space'
import type { ElementPoint } from './elements'

type LitPoint = NonNullable<ReturnType<Emission['sample']>>

/** Lit points of one emitter, drawn once and dealt out in aligned runs: such a run of Sobol points is evenly spread. */
export interface LitPool {
  readonly emitter: Emitter
  /** null: that share of the lamp's flux misses the surface. */
  readonly points: readonly (PooledPoint | null)[]
}

interface PooledPoint {
  readonly lit: LitPoint
  readonly world: Vec3
  readonly normal: Vec3
}

const POOL = 512

export const litPools = (source: RigSource): readonly LitPool[] =>
  source.emitters.map((emitter, e) => ({
    emitter,
    points: litPoints(emitter.emission, e).map(
      (lit) =>
        lit && {
          lit,
          world: pointToWorld(emitter.frame, lit.point),
          normal: directionToWorld(emitter.frame, lit.normal),
        },
    ),
  }))

/** While a lamp moves its emission stays what it is, and so do its points. */
const drawn = new WeakMap<Emission, Map<number, readonly (LitPoint | null)[]>>()

function litPoints(emission: Emission, number: number): readonly (LitPoint | null)[] {
  const known = drawn.get(emission) ?? new Map<number, readonly (LitPoint | null)[]>()
  drawn.set(emission, known)
  const before = known.get(number)
  if (before) return before
  const points = Array.from({ length: POOL }, (_, i) => {
    const draw = (d: number) => sobol(i, d, hash32(number, d))
    return emission.sample([draw(0), draw(1), draw(2), draw(3)])
  })
  known.set(number, points)
  return points
}

/** One lit point as a receiver meets it. */
export interface Incidence {
  /** Unit, world, from the receiver to the lit point. */
  readonly towards: Vec3
  /** L·cosθ·cosθ'·dA/r² of the whole emitter as this point stands for it, 1/m² per cd·s. */
  readonly irradiance: number
}

/** The ray-th of rays lit points that receiver number `receiver` gets from a pool; null: nothing arrives. */
export function incidenceFrom(
  pool: LitPool,
  receiver: number,
  ray: number,
  rays: number,
  at: ElementPoint,
  caster: RayCaster,
  ownGear: ReadonlySet<number> | undefined,
): Incidence | null {
  const irradiance = irradianceFrom(pool, receiver, ray, rays, waysFrom(at, null, caster, ownGear))
  return irradiance > 0 ? { towards: [towards[0], towards[1], towards[2]], irradiance } : null
}

/** Ways of the ray that is asked about: the innermost loop of a dragged lamp makes no vectors. Unit; world, and local the other way. */
const towards: [number, number, number] = [0, 0, 0]
const away: [number, number, number] = [0, 0, 0]

function irradianceFrom(
  { emitter, points }: LitPool,
  receiver: number,
  ray: number,
  rays: number,
  { at: { point, normal }, isOpen }: Ways,
): number {
  const run = hash32(receiver, 77) % (POOL / rays)
  const sent = points[run * rays + ray]
  if (!sent) return 0
  const { lit, world } = sent
  const x = world[0] - point[0]
  const y = world[1] - point[1]
  const z = world[2] - point[2]
  const squared = x * x + y * y + z * z
  const k = 1 / Math.sqrt(squared)
  towards[0] = x * k
  towards[1] = y * k
  towards[2] = z * k
  const cosSeen = normal[0] * towards[0] + normal[1] * towards[1] + normal[2] * towards[2]
  const cosSent = -(sent.normal[0] * towards[0] + sent.normal[1] * towards[1] + sent.normal[2] * towards[2])
  if (cosSeen <= 0 || cosSent <= 0) return 0
  const { emission, frame } = emitter
  away[0] = -dot(towards, frame.x)
  away[1] = -dot(towards, frame.y)
  away[2] = -dot(towards, frame.z)
  const luminance = luminanceOf(lit, away) * gatePass(emission.gate, lit.point, away)
  if (luminance <= 0) return 0
  if (emission.blockers.length > 0 && blockedByCylinder(lit.point, pointToLocal(frame, point), emission.blockers))
    return 0
  if (!isOpen(world)) return 0
  return (luminance * cosSeen * cosSent * lit.areaM2) / squared
}

/** The ways from a receiver to the lit points: straight, or by way of the mirror. */
interface Ways {
  readonly at: ElementPoint
  isOpen(lit: Vec3): boolean
}

/** A mirror shows the lit points from where the receiver's image is. */
function waysFrom(
  at: ElementPoint,
  mirror: Mirror | null,
  caster: RayCaster,
  own: ReadonlySet<number> | undefined,
): Ways {
  const { point, normal } = at
  if (!mirror) return { at, isOpen: (lit) => caster.visible(point, lit, own) }
  return {
    at: { point: reflectedPoint(mirror, point), normal: reflectedDirection(mirror, normal) },
    isOpen: (lit) => {
      const met = mirrorMeets(mirror, point, lit)
      return met !== null && caster.visible(point, met) && caster.visible(met, lit, own)
    },
  }
}

/** Mean direct irradiance over a receiver from all emitters of the source, 1/m² per 1 cd·s in white light; over a mirror, as if that threw back all. */
export function directIrradiance(
  pools: readonly LitPool[],
  receiver: number,
  rays: number,
  pointAt: (u: number, v: number) => ElementPoint,
  caster: RayCaster,
  ownGear: ReadonlySet<number> | undefined,
  mirror: Mirror | null = null,
): number {
  if (rays > POOL) throw new Error(`bounce.directIrradiance: at most ${POOL} rays, got ${rays}`)
  const [scrambleU, scrambleV] = [hash32(receiver, 4), hash32(receiver, 5)]
  let sum = 0
  for (let ray = 0; ray < rays; ray++) {
    const at = pointAt(sobol(ray, 4, scrambleU), sobol(ray, 5, scrambleV))
    const ways = waysFrom(at, mirror, caster, ownGear)
    for (const pool of pools) sum += irradianceFrom(pool, receiver, ray, rays, ways)
  }
  return sum / rays
}
