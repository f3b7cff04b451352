import { dot, scale, sobol, subtract, type Vec3 } from '../../space'
import type { Cylinder, Emission, Gate, LitPoint } from '../emission'
import type { Metres, Steradians } from '../units'
import { gatePass } from './gates'
import { luminanceOf } from './lobes'
import { lobeTable } from './lobeTable'
import { gaussLegendre } from './quadrature'
import { blockedByCylinder } from './segments'

export interface FrontCloth {
  /** The lit hollow behind the cloth: its rim lies at z = 0, and what stands within is among its blockers. */
  readonly behind: Emission
  readonly radiusM: Metres
  /** Round hole for the lamp; 0: none. */
  readonly holeRadiusM: Metres
  readonly transmittance: number
  readonly reflectance: number
  /** Share of even light into the hollow's mouth that it sends back out: mouthReflectance. */
  readonly behindReflectance: number
  /** Light in the hollow that does not come by way of its lit face, taken as even on the cloth. */
  readonly extraFlux?: Steradians
  /** What stands before the cloth. */
  readonly blockers?: readonly Cylinder[]
  /** What stands over the whole cloth. */
  readonly gate?: Gate
}

/** Of a matt hollow with self form factor F and reflectance ρ: light lands, and each time 1 − F of what leaves gets out. */
export const mouthReflectance = (reflectance: number, formFactor: number): number =>
  (reflectance * (1 - formFactor)) / (1 - reflectance * formFactor)

const TOUCHING_M = 1e-3
const RINGS = 8
const HOLE_RINGS = 3
const POINTS = 1024

/**
 * A flat cloth over the mouth of a lit hollow. Its light has the shape of the illuminance behind it, ring by ring, plus an even
 * part that goes to and fro between cloth and hollow: out = τ·Φ/(1 − ρ·R), Φ what the hollow sends to the cloth, less what
 * stands between them and what leaves by the hole.
 */
export function frontCloth(cloth: FrontCloth): Emission {
  const { behind, radiusM, holeRadiusM, transmittance, reflectance, behindReflectance, extraFlux = 0 } = cloth
  const [radiusSq, holeSq] = [radiusM ** 2, holeRadiusM ** 2]
  const points = litPoints(behind)
  const lit = ringsBetween(holeSq, radiusSq, RINGS).map((ring) => ({ ...ring, ...illuminanceAt(points, behind, ring) }))
  const holes = holeSq > 0 ? ringsBetween(0, holeSq, HOLE_RINGS) : []
  const all =
    lit.reduce((sum, { areaM2, open }) => sum + areaM2 * open, 0) +
    holes.reduce((sum, ring) => sum + ring.areaM2 * illuminanceAt(points, behind, ring).open, 0)
  // The sum over rings gives shares; the hollow knows its flux better.
  const perShare = behind.flux / all
  const arriving = perShare * lit.reduce((sum, { areaM2, passed }) => sum + areaM2 * passed, 0) + extraFlux
  const again = reflectance * behindReflectance * (1 - holeSq / radiusSq)
  const even = (extraFlux + (arriving * again) / (1 - again)) / (Math.PI * (radiusSq - holeSq))
  const values = lit.map(({ passed }) => passed * perShare + even)
  return lobeTable({
    surface: { shape: 'disc', radiusM },
    ...ringTable(lit, values, holeSq, radiusSq),
    flux: (transmittance * arriving) / (1 - again),
    ...(cloth.blockers ? { blockers: cloth.blockers } : {}),
    ...(cloth.gate ? { gate: cloth.gate } : {}),
  })
}

interface Ring {
  readonly radiusM: Metres
  readonly areaM2: number
}

/** Gauss's places in r². */
const ringsBetween = (innerSq: number, outerSq: number, count: number): readonly Ring[] =>
  gaussLegendre(count).map(({ x, weight }) => ({
    radiusM: Math.sqrt(innerSq + (outerSq - innerSq) * x),
    areaM2: Math.PI * (outerSq - innerSq) * weight,
  }))

/** Lit points of the hollow by its flux route: few do, as each counts for what it sends. */
const litPoints = (behind: Emission): readonly LitPoint[] =>
  Array.from({ length: POINTS }, (_, i) => behind.sample([sobol(i, 0), sobol(i, 1), sobol(i, 2), sobol(i, 3)])).filter(
    (lit) => lit !== null,
  )

/**
 * Illuminance behind the cloth, as if nothing stood in the hollow, and what of it passes that. A point counts as a disc of the
 * area that it stands for, so that one close by the rim does not burn a spot.
 */
function illuminanceAt(points: readonly LitPoint[], { gate, blockers }: Emission, { radiusM }: Ring) {
  const at: Vec3 = [radiusM, 0, TOUCHING_M]
  let [open, passed] = [0, 0]
  for (const lit of points) {
    const way = subtract(at, lit.point)
    const squared = dot(way, way)
    const direction = scale(way, 1 / Math.sqrt(squared))
    const cosines = direction[2] * dot(direction, lit.normal)
    if (direction[2] <= 0 || cosines <= 0) continue
    const area = lit.areaM2 / POINTS
    const e =
      (luminanceOf(lit, direction) * gatePass(gate, lit.point, direction) * cosines * area) / (squared + area / Math.PI)
    open += e
    if (!blockedByCylinder(lit.point, at, blockers)) passed += e
  }
  return { open, passed }
}

/** Straight lines in r² between the rings, flat beyond the outermost and inside the innermost; nothing in the hole. */
function ringTable(rings: readonly Ring[], values: readonly number[], holeSq: number, radiusSq: number) {
  const order = rings.map((_, i) => i).sort((a, b) => rings[a]!.radiusM - rings[b]!.radiusM)
  const inner = order.map((i) => ({ at: rings[i]!.radiusM ** 2, value: values[i]! }))
  const table = [{ ...inner[0]!, at: holeSq }, ...inner, { ...inner[inner.length - 1]!, at: radiusSq }]
  const relative = (x: Metres, y: Metres): number => {
    const squared = x * x + y * y
    if (squared < holeSq) return 0
    const next = table.findIndex(({ at }) => at > squared)
    if (next <= 0) return table[next === 0 ? 0 : table.length - 1]!.value
    const [from, to] = [table[next - 1]!, table[next]!]
    return from.value + ((squared - from.at) / (to.at - from.at)) * (to.value - from.value)
  }
  const total = table
    .slice(1)
    .reduce((sum, to, i) => sum + ((to.at - table[i]!.at) * (to.value + table[i]!.value)) / 2, 0)
  return { relative, mean: total / radiusSq }
}
