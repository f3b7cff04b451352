import type { Material } from '../rig'
import { type Mesh, triangleNormal, type Vec3 } from '../space'

/** A piece of surface with one radiosity: a patch of a rectangle, or a cluster of triangles. */
export type Element = Patch | Cluster

export interface Patch {
  readonly kind: 'patch'
  readonly surfaceId: string
  readonly areaM2: number
  readonly normal: Vec3
  /** Middle and half edges, m. */
  readonly centre: Vec3
  readonly halfU: Vec3
  readonly halfV: Vec3
}

export interface Cluster {
  readonly kind: 'cluster'
  readonly body: number
  readonly areaM2: number
  readonly mesh: Mesh
  /** 1: the side to which the triangles are wound; −1: the other side of a thin thing. */
  readonly side: 1 | -1
  readonly triangles: Uint32Array
  /** Running sum of the triangles' areas as shares of the whole, last one 1. */
  readonly shares: Float64Array
}

export interface ElementPoint {
  readonly point: Vec3
  readonly normal: Vec3
}

/** Metres by which a ray starts off the surface it leaves. */
const LIFT = 2e-4

/** A point of the element, lifted off it: even over the area for even u, v in [0, 1). */
export function pointOfElement(element: Element, u: number, v: number): ElementPoint {
  return element.kind === 'patch' ? pointOfPatch(element, u, v) : pointOfCluster(element, u, v)
}

function pointOfPatch({ centre: c, halfU, halfV, normal: n }: Patch, u: number, v: number): ElementPoint {
  const a = 2 * u - 1
  const b = 2 * v - 1
  return {
    point: [
      c[0] + a * halfU[0] + b * halfV[0] + LIFT * n[0],
      c[1] + a * halfU[1] + b * halfV[1] + LIFT * n[1],
      c[2] + a * halfU[2] + b * halfV[2] + LIFT * n[2],
    ],
    normal: n,
  }
}

function pointOfCluster({ mesh, triangles, shares, side }: Cluster, u: number, v: number): ElementPoint {
  let low = 0
  let high = shares.length - 1
  while (low < high) {
    const middle = (low + high) >> 1
    if (shares[middle] > u) high = middle
    else low = middle + 1
  }
  const before = low > 0 ? shares[low - 1] : 0
  // What is left of u within the triangle's share is even again; the root spreads corners evenly over the triangle.
  const root = Math.sqrt(Math.min(1, (u - before) / (shares[low] - before)))
  return pointOfTriangle(mesh, triangles[low], 1 - root, root * (1 - v), root * v, side)
}

/** Weighted corners, lifted to the given side of the flat triangle. */
export function pointOfTriangle(
  { positions: p, indices }: Mesh,
  triangle: number,
  wa: number,
  wb: number,
  wc: number,
  side: 1 | -1,
): ElementPoint {
  const a = indices[3 * triangle]
  const b = indices[3 * triangle + 1]
  const c = indices[3 * triangle + 2]
  const front = triangleNormal(p, a, b, c)
  const n: Vec3 = side === 1 ? front : [-front[0], -front[1], -front[2]]
  return {
    point: [
      wa * p[3 * a] + wb * p[3 * b] + wc * p[3 * c] + LIFT * n[0],
      wa * p[3 * a + 1] + wb * p[3 * b + 1] + wc * p[3 * c + 1] + LIFT * n[1],
      wa * p[3 * a + 2] + wb * p[3 * b + 2] + wc * p[3 * c + 2] + LIFT * n[2],
    ],
    normal: n,
  }
}

/** Mean reflectance per band as the later bounces see it: a metal counts as matt with ρ = F0. */
export const reflectanceOf = (material: Material): readonly [number, number, number] => {
  const [r, g, b] = material.kind === 'matt' ? material.albedo : material.f0
  return [r, g, b]
}
