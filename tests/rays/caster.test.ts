import { describe, expect, test } from 'vitest'
import { createRayCaster } from '../../src/rays'
import { addScaled, type Body, cross, dot, type Mesh, normalize, subtract, type Vec3 } from '../../src/space'
import { anywhere, direction, nearestByTryingAll, numbers, soup, sphere, triangleCorners } from './brute-force'

const mesh = (m: Mesh): Body => ({ kind: 'mesh', mesh: m })
const moved = (m: Mesh, move: (p: Vec3) => Vec3): Mesh => {
  const positions = new Float32Array(m.positions.length)
  for (let i = 0; i < positions.length; i += 3)
    positions.set(move([m.positions[i], m.positions[i + 1], m.positions[i + 2]]), i)
  return { ...m, positions }
}

function scene(seed: number): { bodies: Body[]; next: () => number } {
  const next = numbers(seed)
  const rectangle = (oneSided: boolean): Body => {
    const halfU = direction(next)
    const halfV = normalize(cross(halfU, direction(next)))
    return { kind: 'rectangle', rect: { centre: anywhere(next, 1), halfU, halfV }, oneSided }
  }
  const bodies = [
    mesh(soup(next, 400)),
    rectangle(true),
    mesh(soup(next, 150)),
    rectangle(false),
    mesh(sphere(12, 20, 0.4)),
  ]
  return { bodies, next }
}

describe.each([1, 2, 3, 4])('against trying every triangle, seed %i', (seed) => {
  const { bodies, next } = scene(seed)
  const caster = createRayCaster(bodies)
  const rays = Array.from({ length: 600 }, () => ({ o: anywhere(next, 1.2), d: direction(next) }))

  test('nearest: same body, triangle and distance; normal and weights belong to the point', () => {
    let hits = 0
    for (const { o, d } of rays) {
      const truth = nearestByTryingAll(bodies, o, d)
      const hit = caster.nearest(o, d)
      if (!truth || !hit) {
        expect(hit).toEqual(truth)
        continue
      }
      hits++
      expect(hit.bodyIndex).toBe(truth.body)
      expect(hit.triangle).toBe(truth.triangle)
      expect(hit.distance).toBeCloseTo(truth.distance, 9)
      expect(dot(hit.normal, d)).toBeLessThan(0)
      const body = bodies[truth.body]
      if (body.kind === 'rectangle') continue
      const corners = triangleCorners(body.mesh, truth.triangle)
      const at = addScaled(o, d, hit.distance)
      const [a, b, c] = hit.barycentric
      for (let k = 0; k < 3; k++)
        expect(a * corners[0][k] + b * corners[1][k] + c * corners[2][k]).toBeCloseTo(at[k], 9)
      const outwards = cross(subtract(corners[1], corners[0]), subtract(corners[2], corners[0]))
      expect(hit.fromBehind).toBe(dot(outwards, d) > 0)
    }
    expect(hits, 'rays that met something').toBeGreaterThan(200)
  })

  test('visible: the same both ways, and as the nearest hit says', () => {
    const opaque = bodies.map((b): Body => (b.kind === 'rectangle' ? { ...b, oneSided: false } : b))
    let blocked = 0
    for (const { o } of rays) {
      const to = anywhere(next, 1.5)
      const span = subtract(to, o)
      const far = Math.hypot(...span)
      const hit = nearestByTryingAll(opaque, o, normalize(span))
      const seen = !hit || hit.distance >= far - 1e-4
      if (hit && (hit.distance < 1e-4 || Math.abs(hit.distance - far) < 2e-4)) continue
      expect(caster.visible(o, to)).toBe(seen)
      expect(caster.visible(to, o)).toBe(seen)
      if (!seen) blocked++
    }
    expect(blocked, 'lines of sight that were cut').toBeGreaterThan(150)
  })

  test('ignored bodies are not there', () => {
    const left = bodies.filter((_, i) => i !== 0 && i !== 3)
    const without = createRayCaster(left)
    const names = [1, 2, 4]
    for (const { o, d } of rays.slice(0, 300)) {
      const hit = caster.nearest(o, d, new Set([0, 3]))
      const truth = without.nearest(o, d)
      expect(hit?.distance).toBe(truth?.distance)
      expect(hit?.bodyIndex).toBe(truth ? names[truth.bodyIndex] : undefined)
    }
  })

  test('what one ray looks past, the next one may meet', () => {
    const pasts = [new Set([0, 3]), new Set([1]), new Set<number>()].map((past) => {
      const names = [...bodies.keys()].filter((i) => !past.has(i))
      return { past, names, without: createRayCaster(names.map((i) => bodies[i]!)) }
    })
    for (const { o, d } of rays.slice(0, 100))
      for (const { past, names, without } of pasts) {
        const truth = without.nearest(o, d)
        expect(caster.nearest(o, d, past)?.bodyIndex).toBe(truth ? names[truth.bodyIndex] : undefined)
        expect(caster.visible(o, addScaled(o, d, 3), past)).toBe(without.visible(o, addScaled(o, d, 3)))
      }
  })

  test('a refitted mesh answers as one built afresh', () => {
    const turn = (p: Vec3): Vec3 => [p[2] + 0.1, p[1] * 0.8, -p[0]]
    const then = bodies.map((b, i): Body => (b.kind === 'mesh' && i !== 2 ? mesh(moved(b.mesh, turn)) : b))
    caster.update(then)
    const fresh = createRayCaster(then)
    for (const { o, d } of rays) {
      const hit = caster.nearest(o, d)
      const truth = fresh.nearest(o, d)
      expect(hit?.distance).toBe(truth?.distance)
      expect(hit?.triangle).toBe(truth?.triangle)
    }
  })
})

test('rays along the axes through the corners of a box grid meet it: flat boxes and 0·∞ lose none', () => {
  const positions: number[] = []
  const indices: number[] = []
  for (let i = 0; i <= 8; i++) for (let j = 0; j <= 8; j++) positions.push(i / 8, 0.25, j / 8)
  for (let i = 0; i < 8; i++)
    for (let j = 0; j < 8; j++) {
      const a = 9 * i + j
      indices.push(a, a + 1, a + 9, a + 1, a + 10, a + 9)
    }
  const flat: Mesh = {
    positions: new Float32Array(positions),
    normals: new Float32Array(positions.length),
    indices: new Uint32Array(indices),
  }
  const caster = createRayCaster([mesh(flat)])
  for (let i = 0; i <= 16; i++)
    for (let j = 0; j <= 16; j++)
      expect(caster.nearest([i / 16, 1, j / 16], [0, -1, 0])?.distance, `${i}, ${j}`).toBeCloseTo(0.75, 12)
})

test('no crack in a closed ball: every ray from inside meets its back', () => {
  const caster = createRayCaster([mesh(sphere(40, 80, 0.5))])
  const next = numbers(7)
  for (let i = 0; i < 20000; i++) {
    const hit = caster.nearest(anywhere(next, 0.2), direction(next))
    expect(hit?.fromBehind).toBe(true)
  }
})

test('a wall lets in what comes from behind for nearest, and cuts lines of sight both ways', () => {
  const wall: Body = {
    kind: 'rectangle',
    rect: { centre: [0, 0, 0], halfU: [1, 0, 0], halfV: [0, 1, 0] },
    oneSided: true,
  }
  const caster = createRayCaster([wall])
  expect(caster.nearest([0, 0, 1], [0, 0, -1])?.distance).toBe(1)
  expect(caster.nearest([0, 0, -1], [0, 0, 1])).toBeNull()
  expect(caster.visible([0, 0, 1], [0, 0, -1])).toBe(false)
  expect(caster.visible([0, 0, -1], [0, 0, 1])).toBe(false)
  expect(caster.visible([0, 0, 1], [0, 0, 0]), 'the end of a line may lie on a surface').toBe(true)
})
