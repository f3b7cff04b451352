import type { Vec3 } from '../../src/space'

/**
 * Brute force over a canopy and its lamp, from the physics alone: a spherical cap of cloth, rim plane at z = 0 and apex at
 * z = −h, lit by a disc lamp on its axis that points to the apex with I = cosⁿθ. Shares nothing with photometry's profiles:
 * the cap is cut in polar angle (not in height), the gloss is written from Walter 2007 and Heitz 2014 in angles.
 */
export interface Umbrella {
  readonly diameterM: number
  readonly depthM: number
  readonly shaftM: number
  readonly lampRadiusM: number
  readonly exponent: number
  /** Matt reflectance ρ; glossy reflectance with roughness r, α = r². */
  readonly matt: number
  readonly glossy: number
  readonly roughness: number
  /** Reflectance that takes part in the exchange within the hollow; left out: matt and glossy. */
  readonly exchanging?: number
  /** The place stands beyond the apex and `matt` is transmitted; so is this share, in a lobe cosᵐ of the angle to the ray. Apex at z = 0. */
  readonly through?: { readonly forward: number; readonly exponent: number }
  /** Opaque cylinders on the axis before the rim, such as the lamp's own dish and body. */
  readonly onAxis?: readonly { readonly fromM: number; readonly toM: number; readonly radiusM: number }[]
}

const POLAR = 48
const AROUND = 96
const LAMP_RINGS = 4
const GOLDEN = (Math.sqrt(5) - 1) / 2

interface Piece {
  readonly point: Vec3
  readonly normal: Vec3
  readonly areaM2: number
}

/** Irradiance at a point in front, in the frame of its lit face, per 1 cd of the lamp on its axis, 1/m². */
export function umbrellaIrradiance(umbrella: Umbrella, at: Vec3, normal: Vec3): number {
  const { depthM: h, through } = umbrella
  // A shoot-through's own frame starts at its apex and looks the other way.
  return through
    ? irradianceFrom(umbrella, [at[0], at[1], -at[2] - h], [normal[0], normal[1], -normal[2]])
    : irradianceFrom(umbrella, at, normal)
}

function irradianceFrom(umbrella: Umbrella, at: Vec3, normal: Vec3): number {
  const { depthM: h, diameterM, matt, glossy, roughness, through, onAxis = [] } = umbrella
  const pieces = capPieces(umbrella)
  const lamp = lampPoints(umbrella)
  const landed = pieces.map((piece) => lamp.map((from) => landing(umbrella, piece, from)))
  const area = pieces.reduce((sum, { areaM2 }) => sum + areaM2, 0)
  const caught = pieces.reduce((sum, { areaM2 }, i) => sum + areaM2 * mean(landed[i].map(({ e }) => e)), 0)
  // Every piece of a sphere sees every other alike: the cloth lights itself evenly, all bounces summed as a geometric series.
  const seesItself = (h * h) / (diameterM ** 2 / 4 + h * h)
  const rho = umbrella.exchanging ?? matt + glossy
  const exchanged = (seesItself * rho * caught) / area / (1 - rho * seesItself)
  const leaves = matt + glossy + (through?.forward ?? 0)
  return pieces.reduce((sum, { point, normal: inwards, areaM2 }, i) => {
    const n: Vec3 = through ? [-inwards[0], -inwards[1], -inwards[2]] : inwards
    const { unit, squared } = towards(point, at)
    const cosines = dot(n, unit) * -dot(normal, unit)
    if (dot(n, unit) <= 0 || dot(normal, unit) >= 0) return sum
    if (!through && !throughRim(umbrella, point, unit)) return sum
    if (onAxis.some((cylinder) => meets(cylinder, point, at))) return sum
    const direct = mean(landed[i].map(({ e }) => e))
    const gloss =
      glossy === 0 ? 0 : mean(landed[i].map(({ e, unit: in_ }) => e * microfacet(n, in_, unit, roughness ** 2)))
    const lobe = through?.forward
      ? through.forward *
        mean(landed[i].map(({ e, unit: in_ }) => e * forwardLobe(-dot(in_, unit), dot(n, unit), through.exponent)))
      : 0
    return sum + (((matt * direct + leaves * exchanged) / Math.PI + glossy * gloss + lobe) * cosines * areaM2) / squared
  }, 0)
}

/** A lobe (m + 1)/2π·cosᵐγ of intensity about the ray that goes on, as luminance: over cosθ. */
const forwardLobe = (cosRay: number, cosOut: number, m: number): number =>
  ((m + 1) / (2 * Math.PI)) * (Math.max(0, cosRay) ** m / cosOut)

/** Where the way lies between the ends, is it anywhere nearer the axis than the radius? */
function meets({ fromM, toM, radiusM }: { fromM: number; toM: number; radiusM: number }, a: Vec3, b: Vec3): boolean {
  const [dx, dy, dz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]]
  const [t0, t1] = [(fromM - a[2]) / dz, (toM - a[2]) / dz]
  const [first, last] = [Math.max(0, Math.min(t0, t1)), Math.min(1, Math.max(t0, t1))]
  if (first > last) return false
  const nearest = -(a[0] * dx + a[1] * dy) / (dx * dx + dy * dy || 1)
  const t = Math.min(last, Math.max(first, nearest))
  return Math.hypot(a[0] + t * dx, a[1] + t * dy) <= radiusM
}

/** Each meridian's pieces are shifted by a golden step, or a round edge would be counted by whole rings. */
function capPieces({ diameterM, depthM }: Umbrella): readonly Piece[] {
  const radius = (diameterM ** 2 / 4 + depthM ** 2) / (2 * depthM)
  const step = Math.asin(diameterM / 2 / radius) / POLAR
  const turn = (2 * Math.PI) / AROUND
  return Array.from({ length: POLAR * AROUND }, (_, i) => {
    const polar = (Math.floor(i / AROUND) + (((i % AROUND) * GOLDEN) % 1)) * step
    const phi = ((i % AROUND) + 0.5) * turn
    const out: Vec3 = [Math.sin(polar) * Math.cos(phi), Math.sin(polar) * Math.sin(phi), -Math.cos(polar)]
    return {
      point: [radius * out[0], radius * out[1], radius * out[2] + radius - depthM],
      normal: [-out[0], -out[1], -out[2]],
      areaM2: radius ** 2 * Math.sin(polar) * step * turn,
    }
  })
}

/** Rings of equal area, so that each point stands for the same share. */
function lampPoints({ shaftM, depthM, lampRadiusM }: Umbrella): readonly Vec3[] {
  const around = 3 * LAMP_RINGS
  return Array.from({ length: LAMP_RINGS * around }, (_, i) => {
    const r = lampRadiusM * Math.sqrt((Math.floor(i / around) + 0.5) / LAMP_RINGS)
    const phi = (2 * Math.PI * ((i % around) + 0.3)) / around
    return [r * Math.cos(phi), r * Math.sin(phi), shaftM - depthM]
  })
}

function landing({ exponent }: Umbrella, { point, normal }: Piece, from: Vec3): { e: number; unit: Vec3 } {
  const { unit, squared } = towards(point, from)
  return { unit, e: (Math.max(0, unit[2]) ** exponent * Math.max(0, dot(normal, unit))) / squared }
}

/** D·G/(4 cos cos) with α: tan²θ form of D, height-correlated Λ of G. */
function microfacet(n: Vec3, a: Vec3, b: Vec3, alpha: number): number {
  const [ca, cb] = [dot(n, a), dot(n, b)]
  if (ca <= 0 || cb <= 0) return 0
  const half: Vec3 = [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
  const cosHalf = dot(n, half) / Math.hypot(...half)
  const tanSquared = (c: number) => 1 / (c * c) - 1
  const d = 1 / (Math.PI * alpha ** 2 * cosHalf ** 4 * (1 + tanSquared(cosHalf) / alpha ** 2) ** 2)
  const lambda = (c: number) => (Math.sqrt(1 + alpha ** 2 * tanSquared(c)) - 1) / 2
  return d / (1 + lambda(ca) + lambda(cb)) / (4 * ca * cb)
}

function throughRim({ diameterM }: Umbrella, [x, y, z]: Vec3, [dx, dy, dz]: Vec3): boolean {
  if (dz <= 0) return false
  return Math.hypot(x - (z / dz) * dx, y - (z / dz) * dy) <= diameterM / 2
}

function towards(a: Vec3, b: Vec3): { unit: Vec3; squared: number } {
  const way: Vec3 = [b[0] - a[0], b[1] - a[1], b[2] - a[2]]
  const squared = dot(way, way)
  const k = 1 / Math.sqrt(squared)
  return { unit: [way[0] * k, way[1] * k, way[2] * k], squared }
}

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length
