import { dot, type Mesh, type Vec3 } from '../space'
import type { Projection } from './outline'
import type { Point2 } from './types'

/**
 * Where a plane cuts a closed mesh: loops on the drawing, the longest first. Crossed edges are nodes and each cut
 * triangle links two of them, so the chains need no tolerance.
 */
export function planeSection(mesh: Mesh, at: Vec3, normal: Vec3, project: Projection): Point2[][] {
  const { positions, indices } = mesh
  const count = positions.length / 3
  const height = new Float64Array(count)
  const vertex = (i: number): Vec3 => [positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]]
  const level = dot(at, normal)
  for (let i = 0; i < count; i++)
    height[i] =
      positions[3 * i] * normal[0] + positions[3 * i + 1] * normal[1] + positions[3 * i + 2] * normal[2] - level
  const links = new Map<number, number[]>()
  const places = new Map<number, Point2>()
  for (let t = 0; t < indices.length; t += 3) {
    const below = +(height[indices[t]] < 0) + +(height[indices[t + 1]] < 0) + +(height[indices[t + 2]] < 0)
    if (below === 0 || below === 3) continue
    const crossed: number[] = []
    for (let k = 0; k < 3; k++) {
      const [i, j] = [indices[t + k], indices[t + ((k + 1) % 3)]]
      if (height[i] < 0 === height[j] < 0) continue
      const edge = Math.min(i, j) * count + Math.max(i, j)
      if (!places.has(edge))
        places.set(edge, project(crossing(vertex(i), vertex(j), height[i] / (height[i] - height[j]))))
      crossed.push(edge)
    }
    if (crossed.length === 2) link(links, crossed[0], crossed[1])
  }
  return chains(links)
    .map((chain) => chain.map((edge) => places.get(edge) as Point2))
    .sort((a, b) => b.length - a.length)
}

const crossing = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + t * (b[0] - a[0]),
  a[1] + t * (b[1] - a[1]),
  a[2] + t * (b[2] - a[2]),
]

function link(links: Map<number, number[]>, a: number, b: number): void {
  links.set(a, [...(links.get(a) ?? []), b])
  links.set(b, [...(links.get(b) ?? []), a])
}

function chains(links: Map<number, number[]>): number[][] {
  const seen = new Set<number>()
  const found: number[][] = []
  for (const start of links.keys()) {
    const chain: number[] = []
    let at: number | undefined = start
    while (at !== undefined && !seen.has(at)) {
      seen.add(at)
      chain.push(at)
      at = links.get(at)?.find((next) => !seen.has(next))
    }
    if (chain.length > 2) found.push(chain)
  }
  return found
}
