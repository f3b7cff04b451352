import { add, basisAround, dot, normalize, scale, type Vec3 } from '../space'

/** Smith's Λ for GGX, E. Heitz 2014 eq. 72. */
const lambda = (cosine: number, a2: number) => (Math.sqrt(1 + (a2 * (1 - cosine * cosine)) / (cosine * cosine)) - 1) / 2

/**
 * Draws an incident direction by the normals that are visible from `towards` (Heitz 2018, spherical caps after Dupuy
 * and Benyoub 2023). weight: BRDF·cosine/probability without F0 = G2/G1; null when the ray would go into the metal.
 */
export function sampleGgx(
  normal: Vec3,
  towards: Vec3,
  alpha: number,
  u: number,
  v: number,
): { readonly incident: Vec3; readonly weight: number } | null {
  const [x, y] = basisAround(normal)
  const local: Vec3 = [dot(towards, x), dot(towards, y), dot(towards, normal)]
  const stretched = normalize([local[0] * alpha, local[1] * alpha, local[2]])
  const phi = 2 * Math.PI * u
  const z = (1 - v) * (1 + stretched[2]) - stretched[2]
  const sine = Math.sqrt(Math.max(0, 1 - z * z))
  const cap: Vec3 = [sine * Math.cos(phi) + stretched[0], sine * Math.sin(phi) + stretched[1], z + stretched[2]]
  const half = normalize([cap[0] * alpha, cap[1] * alpha, Math.max(1e-9, cap[2])])
  const reflected = add(scale(half, 2 * dot(local, half)), scale(local, -1))
  if (reflected[2] <= 0) return null
  const a2 = alpha * alpha
  const lo = lambda(local[2], a2)
  const weight = (1 + lo) / (1 + lo + lambda(reflected[2], a2))
  const incident = add(add(scale(x, reflected[0]), scale(y, reflected[1])), scale(normal, reflected[2]))
  return { incident, weight }
}
