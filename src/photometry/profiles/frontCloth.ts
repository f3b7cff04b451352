import type { Vec3 } from '../../space'
import type { Cylinder, Emission, Gate } from '../emission'
import type { Metres, Steradians } from '../units'
import { arrivals } from './irradiance'
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
  readonly gate?: Gate
  /** What stands before the cloth. */
  readonly blockers?: readonly Cylinder[]
}

/** Of a matt hollow with self form factor F and reflectance ρ: light lands, and each time 1 − F of what leaves gets out. */
export const mouthReflectance = (reflectance: number, formFactor: number): number =>
  (reflectance * (1 - formFactor)) / (1 - reflectance * formFactor)

const TOUCHING_M = 1e-3
const RINGS = 8
const HOLE_RINGS = 3
const CELLS = 32

/**
 * A flat cloth over the mouth of a lit hollow. Its light has the shape of the illuminance behind it, ring by ring, plus an even
 * part that goes to and fro between cloth and hollow: out = τ·Φ/(1 − ρ·R), Φ what the hollow sends to the cloth, less what
 * stands between them and what leaves by the hole.
 */
export function frontCloth(cloth: FrontCloth): Emission {
  const { behind, radiusM, holeRadiusM, transmittance, reflectance, behindReflectance, extraFlux = 0 } = cloth
  const [radiusSq, holeSq] = [radiusM ** 2, holeRadiusM ** 2]
  const rings = gaussLegendre(RINGS).map(({ x, weight }) => ringAt(holeSq, radiusSq, x, weight))
  const inHole = holeSq > 0 ? gaussLegendre(HOLE_RINGS).map(({ x, weight }) => ringAt(0, holeSq, x, weight)) : []
  const sum = (list: readonly Ring[], values: readonly number[]) =>
    list.reduce((total, { areaM2 }, i) => total + areaM2 * values[i]!, 0)
  const lit = rings.map(({ radiusM: r }) => illuminanceAt(behind, r))
  const all =
    sum(
      rings,
      lit.map(({ open }) => open),
    ) +
    sum(
      inHole,
      inHole.map(({ radiusM: r }) => illuminanceAt(behind, r).open),
    )
  const areaM2 = Math.PI * (radiusSq - holeSq)
  // The sum over rings gives shares; the hollow knows its flux better.
  const scale = behind.flux / all
  const arriving =
    scale *
      sum(
        rings,
        lit.map(({ passed }) => passed),
      ) +
    extraFlux
  const again = reflectance * behindReflectance * (1 - holeSq / radiusSq)
  const even = (extraFlux + (arriving * again) / (1 - again)) / areaM2
  const { relative, mean } = ringTable(
    rings,
    lit.map(({ passed }) => passed * scale + even),
    holeSq,
    radiusSq,
  )
  const total = arriving / (1 - again)
  return lobeTable({
    surface: { shape: 'disc', radiusM },
    relative,
    mean,
    flux: transmittance * total,
    ...(cloth.gate ? { gate: cloth.gate } : {}),
    ...(cloth.blockers ? { blockers: cloth.blockers } : {}),
  })
}

interface Ring {
  readonly radiusM: Metres
  readonly areaM2: number
}

function ringAt(innerSq: number, outerSq: number, x: number, weight: number): Ring {
  const squared = innerSq + (outerSq - innerSq) * x
  return { radiusM: Math.sqrt(squared), areaM2: Math.PI * (outerSq - innerSq) * weight }
}

/** Illuminance behind the cloth, as if nothing stood in the hollow, and what of it passes that. */
function illuminanceAt(behind: Emission, radiusM: Metres): { readonly open: number; readonly passed: number } {
  const at: Vec3 = [radiusM, 0, TOUCHING_M]
  let [open, passed] = [0, 0]
  for (const { point, facing, towards } of arrivals({ ...behind, blockers: [] }, at, CELLS)) {
    const e = facing * Math.max(0, -towards[2])
    open += e
    if (!blockedByCylinder(point, at, behind.blockers)) passed += e
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
