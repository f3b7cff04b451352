import { hash32, sobol } from '../../src/space'

/** Light thrown ray by ray: another way to the flux than the sums over surface and directions that the profiles take. */

/** n of cosⁿ that falls to a half at half the full angle. */
export const cosinePower = (fullDeg: number) => Math.log(0.5) / Math.log(Math.cos((fullDeg * Math.PI) / 360))
const N = cosinePower(65)

type Three = readonly [number, number, number]

/** From a disc in z = 0 with a beam of cosⁿ about +z. */
function thrown(i: number, radiusM: number, n = N): { readonly from: Three; readonly ray: Three } {
  const [r, a] = [radiusM * Math.sqrt(sobol(i, 0)), 2 * Math.PI * sobol(i, 1)]
  const cosine = (1 - sobol(i, 2)) ** (1 / (n + 1))
  const [sine, b] = [Math.sqrt(1 - cosine ** 2), 2 * Math.PI * sobol(i, 3)]
  return { from: [r * Math.cos(a), r * Math.sin(a), 0], ray: [sine * Math.cos(b), sine * Math.sin(b), cosine] }
}

/** Share of a dish's light that crosses a circle on its axis, and a square of that side. */
export const shareWithin = (radiusM: number, distanceM: number, lampRadiusM: number): number =>
  share(distanceM, lampRadiusM, (x, y) => Math.hypot(x, y) <= radiusM)
export const shareWithinSquare = (sideM: number, distanceM: number, lampRadiusM: number): number =>
  share(distanceM, lampRadiusM, (x, y) => Math.max(Math.abs(x), Math.abs(y)) <= sideM / 2)

function share(distanceM: number, lampRadiusM: number, isIn: (x: number, y: number) => boolean, count = 65_536) {
  let within = 0
  for (let i = 0; i < count; i++) {
    const { from, ray } = thrown(i, lampRadiusM)
    const t = distanceM / ray[2]
    if (isIn(from[0] + t * ray[0], from[1] + t * ray[1])) within++
  }
  return within / count
}

/** Halton's sequence, for the two numbers that Sobol's four leave over: not in base 2, which is Sobol's first. */
function halton(i: number, base: number): number {
  let [value, step] = [0, 1 / base]
  for (let k = i + 1; k > 0; k = Math.floor(k / base), step /= base) value += (k % base) * step
  return value
}

const dot = (a: Three, b: Three) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

export interface Bowl {
  readonly rimM: number
  readonly depthM: number
  readonly shaftM: number
  readonly lampM?: number
  readonly exponent?: number
}

/**
 * Share of a lamp's light that a metal canopy of F 1 throws out of its mouth at the first bounce: facets drawn from D·cos, each
 * weighted with G₂·(i·h)/(cosI·cosH) [Walter 2007, eq. 41; Heitz 2014].
 */
export function glossyShare(roughness: number, bowl: Bowl, count = 16_384, kept: Kept = () => 1): number {
  const { rimM: rim, depthM: depth } = bowl
  const a2 = roughness ** 4
  const radius = radiusOf(bowl)
  let out = 0
  for (let i = 0; i < count; i++) {
    const met = landed(i, bowl)
    if (!met) continue
    const { p, ray } = met
    const n: Three = [-p[0] / radius, -p[1] / radius, -p[2] / radius]
    const incident: Three = [-ray[0], -ray[1], -ray[2]]
    const h = facet(n, a2, halton(i, 5), halton(i, 3))
    const ih = dot(incident, h)
    const o: Three = [2 * ih * h[0] - incident[0], 2 * ih * h[1] - incident[1], 2 * ih * h[2] - incident[2]]
    const [cosI, cosO, cosH] = [dot(incident, n), dot(o, n), dot(h, n)]
    if (ih <= 0 || cosO <= 0 || o[2] >= 0) continue
    const toRim = (radius - depth - p[2]) / o[2]
    if (Math.hypot(p[0] + toRim * o[0], p[1] + toRim * o[1]) > rim) continue
    const masking = cosO * Math.sqrt(a2 + (1 - a2) * cosI ** 2) + cosI * Math.sqrt(a2 + (1 - a2) * cosO ** 2)
    out += ((((2 * cosI * cosO) / masking) * ih) / (cosI * cosH)) * kept(i, o)
  }
  return out / count
}

const chance = (i: number, stream: number) => hash32(i, stream) / 2 ** 32

/** What is left of a ray that leaves the mouth. */
type Kept = (i: number, ray: Three) => number

const radiusOf = ({ rimM, depthM }: Bowl) => (rimM * rimM + depthM * depthM) / (2 * depthM)

/** Where a ray of the lamp meets the bowl, from the sphere's middle: the lamp looks along +z at the apex. */
function landed(i: number, bowl: Bowl): { readonly p: Three; readonly ray: Three } | null {
  const { depthM, shaftM, lampM = 0.09, exponent = N } = bowl
  const radius = radiusOf(bowl)
  const { from, ray } = thrown(i, lampM, exponent)
  const start: Three = [from[0], from[1], from[2] - (shaftM - radius)]
  const along = dot(start, ray)
  const root = along * along - dot(start, start) + radius * radius
  if (root < 0) return null
  const t = Math.sqrt(root) - along
  const p: Three = [start[0] + t * ray[0], start[1] + t * ray[1], start[2] + t * ray[2]]
  return p[2] < radius - depthM ? null : { p, ray }
}

/** On a bowl, evenly (Archimedes). */
function anywhere(i: number, bowl: Bowl): Three {
  const radius = radiusOf(bowl)
  const z = radius - bowl.depthM * sobol(i, 0)
  const [across, a] = [Math.sqrt(radius * radius - z * z), 2 * Math.PI * sobol(i, 1)]
  return [across * Math.cos(a), across * Math.sin(a), z]
}

/** Share of a lamp's light (or of light that leaves all of the bowl evenly) that a matt bowl of ρ 1 throws out of its mouth and past a comb. */
export function mattShare(bowl: Bowl, isEven: boolean, kept: Kept, count = 65_536): number {
  const radius = radiusOf(bowl)
  let out = 0
  for (let i = 0; i < count; i++) {
    const p = isEven ? anywhere(i, bowl) : landed(i, bowl)?.p
    if (!p) continue
    // Matt light from a place of a sphere lands evenly on all of it.
    const [z, a] = [radius * (2 * chance(i, 2) - 1), 2 * Math.PI * chance(i, 3)]
    const across = Math.sqrt(radius * radius - z * z)
    const o: Three = [across * Math.cos(a) - p[0], across * Math.sin(a) - p[1], z - p[2]]
    if (z < radius - bowl.depthM) out += kept(i, o)
  }
  return out / count
}

/** Round cells, each a tube, with the share that their black walls leave: rays from a place in the cell. */
export function pastComb(cutOffDeg: number, wallLoss: number): Kept {
  const deep = 1 / Math.tan((cutOffDeg * Math.PI) / 180)
  return (i, [x, y, z]) => {
    const [r, a] = [Math.sqrt(chance(i, 5)) / 2, 2 * Math.PI * chance(i, 7)]
    const [tx, ty] = [(deep * x) / Math.abs(z), (deep * y) / Math.abs(z)]
    return Math.hypot(r * Math.cos(a) + tx, r * Math.sin(a) + ty) <= 0.5 ? wallLoss : 0
  }
}

/** Share of a matt cloth's light that a comb leaves. */
export function keptByComb(cutOffDeg: number, wallLoss: number, count = 1_048_576): number {
  const kept = pastComb(cutOffDeg, wallLoss)
  let sum = 0
  for (let i = 0; i < count; i++) sum += kept(i, [...mattSlopes(i), 1])
  return sum / count
}

function facet(n: Three, a2: number, u: number, v: number): Three {
  const cosH = Math.sqrt((1 - u) / (1 + (a2 - 1) * u))
  const [sinH, angle] = [Math.sqrt(1 - cosH ** 2), 2 * Math.PI * v]
  const s = 1 / Math.hypot(n[0], n[2] || 1e-9)
  const x: Three = [n[2] * s, 0, -n[0] * s]
  const y: Three = [n[1] * x[2] - n[2] * x[1], n[2] * x[0] - n[0] * x[2], n[0] * x[1] - n[1] * x[0]]
  const [a, b] = [sinH * Math.cos(angle), sinH * Math.sin(angle)]
  return [0, 1, 2].map((k) => cosH * n[k]! + a * x[k]! + b * y[k]!) as unknown as Three
}

/** A matt ray: the square of its sine is even (Lambert). Slopes across. */
function mattSlopes(i: number): readonly [number, number] {
  const squared = sobol(i, 2)
  const [slope, around] = [Math.sqrt(squared / (1 - squared)), 2 * Math.PI * sobol(i, 3)]
  return [slope * Math.cos(around), slope * Math.sin(around)]
}

/** Share of a box's light, 1/(1 + r²/(1.4·depth)²)² over its front, that clears a lip: rays thrown from the cloth. */
export function pastLip(widthM: number, heightM: number, depthM: number, lipM: number, count = 65_536): number {
  let [all, past] = [0, 0]
  for (let i = 0; i < count; i++) {
    const [x, y] = [(sobol(i, 0) - 0.5) * widthM, (sobol(i, 1) - 0.5) * heightM]
    const weight = (1 + (x * x + y * y) / (1.4 * depthM) ** 2) ** -2
    const [tx, ty] = mattSlopes(i)
    all += weight
    if (Math.abs(x + lipM * tx) <= widthM / 2 && Math.abs(y + lipM * ty) <= heightM / 2) past += weight
  }
  return past / all
}

/** Share of a matt cloth's light that clears square cells, each a box without lid: rays thrown from a place in the cell. */
export function keptByCells(cutOffDeg: number, count = 65_536): number {
  const deep = 1 / Math.tan((cutOffDeg * Math.PI) / 180)
  let kept = 0
  for (let i = 0; i < count; i++) {
    const [tx, ty] = mattSlopes(i)
    const isIn = (at: number, slope: number) => at + deep * slope >= 0 && at + deep * slope <= 1
    if (isIn(sobol(i, 0), tx) && isIn(sobol(i, 1), ty)) kept++
  }
  return kept / count
}

/**
 * Share of the dish's light that leaves a matt umbrella (0.95 m, 0.209 m deep, lamp 0.54 m out) by a cloth over its front, τ 0.55
 * and ρ 0.35, with a hole of 10 cm radius for the lamp: photons followed until they are lost. What would go past the rim meets
 * the cloth from within.
 */
export function throughFrontCloth(rho: number, count = 250_000): number {
  const [rim, depth, shaft, hole] = [0.475, 0.209, 0.54, 0.1]
  const radius = (rim * rim + depth * depth) / (2 * depth)
  // Heights from the sphere's middle towards the apex: the mouth's is level.
  const level = radius - depth
  let draw = 0
  const random = () => hash32(draw++, 99) / 2 ** 32
  /** On the sphere along a ray from a place within; null: past the rim. */
  const landing = (p: Three, ray: Three): Three | null => {
    const along = dot(p, ray)
    const t = Math.sqrt(along * along - dot(p, p) + radius * radius) - along
    const q: Three = [p[0] + t * ray[0], p[1] + t * ray[1], p[2] + t * ray[2]]
    return q[2] >= level ? q : null
  }
  const onCloth = (): Three => {
    const [r, a] = [Math.sqrt(hole ** 2 + random() * (rim ** 2 - hole ** 2)), 2 * Math.PI * random()]
    return [r * Math.cos(a), r * Math.sin(a), level]
  }
  let out = 0
  for (let i = 0; i < count; i++) {
    const { from, ray } = thrown(i, 0.09)
    const toRim = (shaft - depth) / ray[2]
    const atRim: Three = [from[0] + toRim * ray[0], from[1] + toRim * ray[1], level]
    let inside = Math.hypot(atRim[0], atRim[1]) <= rim ? landing(atRim, ray) : null
    let weight = 1
    let cloth: Three | null = inside ? null : onCloth()
    for (let bounce = 0; bounce < 14; bounce++) {
      if (inside) {
        weight *= rho
        // Matt light from a place of a sphere lands evenly on all of it.
        const [z, a] = [radius * (2 * random() - 1), 2 * Math.PI * random()]
        const across = Math.sqrt(radius * radius - z * z)
        const next: Three = [across * Math.cos(a), across * Math.sin(a), z]
        if (z >= level) {
          inside = next
          continue
        }
        const t = (inside[2] - level) / (inside[2] - z)
        cloth = [inside[0] + t * (next[0] - inside[0]), inside[1] + t * (next[1] - inside[1]), level]
        if (Math.hypot(cloth[0], cloth[1]) < hole) break
      }
      if (!cloth) break
      out += weight * 0.55
      weight *= 0.35
      const [sine, b] = [Math.sqrt(random()), 2 * Math.PI * random()]
      inside = landing(cloth, [sine * Math.cos(b), sine * Math.sin(b), Math.sqrt(1 - sine * sine)])
      cloth = null
    }
  }
  return out / count
}
