import type { Mesh } from '../space'
import type { Point2 } from './types'

const kept = new WeakMap<Mesh, { level: number; loops: Point2[][] }>()

/**
 * Where a level plane y = level cuts a closed mesh: loops on the plan, the longest first. Crossed edges are nodes and
 * each cut triangle links two of them, so the chains need no tolerance. The last answer of each mesh is kept.
 */
export function levelSection(mesh: Mesh, level: number): Point2[][] {
  const last = kept.get(mesh)
  if (last?.level === level) return last.loops
  const links = new Map<number, number[]>()
  const places = new Map<number, Point2>()
  const { positions, indices } = mesh
  const count = positions.length / 3
  for (let t = 0; t < indices.length; t += 3) {
    const crossed: number[] = []
    for (let k = 0; k < 3; k++) {
      const [i, j] = [indices[t + k], indices[t + ((k + 1) % 3)]]
      if (positions[3 * i + 1] < level === positions[3 * j + 1] < level) continue
      const edge = Math.min(i, j) * count + Math.max(i, j)
      if (!places.has(edge)) places.set(edge, crossing(positions, i, j, level))
      crossed.push(edge)
    }
    if (crossed.length === 2) link(links, crossed[0], crossed[1])
  }
  const loops = chains(links)
    .map((chain) => chain.map((edge) => places.get(edge) as Point2))
    .sort((a, b) => b.length - a.length)
  kept.set(mesh, { level, loops })
  return loops
}

function crossing(p: Float32Array, i: number, j: number, level: number): Point2 {
  const t = (level - p[3 * i + 1]) / (p[3 * j + 1] - p[3 * i + 1])
  return [p[3 * i] + t * (p[3 * j] - p[3 * i]), p[3 * i + 2] + t * (p[3 * j + 2] - p[3 * i + 2])]
}

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
