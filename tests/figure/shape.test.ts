import { describe, expect, test } from 'vitest'
import { meshoptSimplify } from '../../src/commands/meshopt'
import {
  AVERAGE_SHAPE,
  atAge,
  type FigureAsset,
  type FigureShape,
  LANDMARK_NAMES,
  readFigureAsset,
  type SculptOptions,
  SHAPE_FIELD_NAMES,
  SHAPE_FIELDS,
  SHAPE_PRESET_NAMES,
  SHAPE_PRESETS,
  sculptFigure,
  shapeFigure,
  writeFigureGlb,
} from '../../src/figure'
import { smallestAngle } from '../../src/figure/sculpt/triangles'
import { asset as first } from './sculpture'

const OTHERS = SHAPE_PRESET_NAMES.filter((name) => name !== 'average')
const partOf = (asset: FigureAsset, name: string) => {
  const part = asset.parts.find((candidate) => candidate.name === name)
  if (!part) throw new Error(`no part ${name}`)
  return part
}
const like = (changes: Partial<FigureShape>): FigureShape => ({ ...AVERAGE_SHAPE, ...changes })

describe('what a shape may be', () => {
  test('every field has its default inside its range, and all presets are complete and within', () => {
    for (const name of SHAPE_FIELD_NAMES) {
      const { range, default: standard } = SHAPE_FIELDS[name]
      expect(standard).toBeGreaterThanOrEqual(range[0])
      expect(standard).toBeLessThanOrEqual(range[1])
      for (const preset of SHAPE_PRESET_NAMES) {
        expect(SHAPE_PRESETS[preset][name], `${preset} ${name}`).toBeGreaterThanOrEqual(range[0])
        expect(SHAPE_PRESETS[preset][name], `${preset} ${name}`).toBeLessThanOrEqual(range[1])
      }
    }
  })

  test.each([
    [{ headBreadthMm: 90 }, 'shape.headBreadthMm: expected 132 to 166 mm, got 90; start from one of the presets'],
    [{ masculinity: 2 }, 'shape.masculinity: expected -1 to 1, got 2; start from one of the presets'],
    [{ ageYears: Number.NaN }, 'shape.ageYears: expected 7 to 18 years, got NaN; start from one of the presets'],
  ])('%j is refused with the place, what was expected and what to do', (changes, message) => {
    expect(() => shapeFigure(first, like(changes))).toThrow(message)
  })

  test('lengths that would fold the skin are refused, not bent to fit', () => {
    expect(() => shapeFigure(first, like({ ageYears: 7 }))).toThrow(/skin folded at .* nearer to a preset/)
  })

  test('each length alone may take either end of its range', () => {
    for (const name of SHAPE_FIELD_NAMES)
      if (name !== 'ageYears')
        for (const value of SHAPE_FIELDS[name].range)
          expect(() => shapeFigure(first, like({ [name]: value }))).not.toThrow()
  })
})

test('the average shape is the first sitter itself', () => {
  expect(shapeFigure(first, { ...AVERAGE_SHAPE })).toBe(first)
})

test('every preset has a younger self; back at its own age it is the same', () => {
  for (const name of OTHERS) expect(() => shapeFigure(first, atAge(SHAPE_PRESETS[name], 7))).not.toThrow()
  const back = atAge(atAge(SHAPE_PRESETS.feminine, 9), 18)
  for (const name of SHAPE_FIELD_NAMES) expect(back[name]).toBeCloseTo(SHAPE_PRESETS.feminine[name], 9)
  const child = atAge(AVERAGE_SHAPE, 7)
  for (const name of SHAPE_FIELD_NAMES) expect(child[name]).toBeCloseTo(SHAPE_PRESETS.child[name], 9)
})

test('shaping what the file holds equals sculpting in that shape within 0.05 mm', async () => {
  const simplify = await meshoptSimplify()
  const rough: SculptOptions = {
    coarseness: 6,
    skinTriangles: 3_000,
    hairTriangles: 1_500,
    garmentTriangles: 900,
    proxyTriangles: { skin: 1_000, eye: 200, hair: 500, garment: 300 },
  }
  const sculpted = sculptFigure(rough, simplify, SHAPE_PRESETS.child)
  const shaped = shapeFigure(readFigureAsset(writeFigureGlb(sculptFigure(rough, simplify))), SHAPE_PRESETS.child)
  sculpted.parts.forEach(({ mesh }, i) => {
    expect(shaped.parts[i].mesh.indices).toEqual(mesh.indices)
    mesh.positions.forEach((v, k) => {
      if (Math.abs(v - shaped.parts[i].mesh.positions[k]) > 0.00005) throw new Error(`coordinate ${k} of part ${i}`)
    })
  })
})

describe.each(OTHERS)('%s', (preset) => {
  const asset = shapeFigure(first, SHAPE_PRESETS[preset])

  test('has the vertices, triangles, proxies, paint and weights of the first sitter', () => {
    asset.parts.forEach((part, i) => {
      const was = first.parts[i]
      for (const key of ['name', 'tint', 'headWeight', 'proxyIndices', 'proxyCorners', 'proxyWeights'] as const)
        expect(part[key]).toBe(was[key])
      expect(part.mesh.indices).toBe(was.mesh.indices)
      expect(part.mesh.positions.length).toBe(was.mesh.positions.length)
    })
    expect(Object.keys(asset.landmarks).sort()).toEqual([...LANDMARK_NAMES].sort())
  })

  test.each(['skin', 'hair', 'garment'])('%s: no triangle is flipped or degenerate', (name) => {
    const { positions: p, normals, indices } = partOf(asset, name).mesh
    let against = 0
    let thin = 0
    for (let t = 0; t < indices.length; t += 3) {
      const [a, b, c] = [indices[t], indices[t + 1], indices[t + 2]]
      if ((smallestAngle(p, a, b, c) * 180) / Math.PI < 2) throw new Error(`triangle ${t / 3} is a sliver`)
      if ((smallestAngle(p, a, b, c) * 180) / Math.PI < 10) thin++
      const face = faceNormal(p, a, b, c)
      const mean = [0, 1, 2].map((k) => normals[a * 3 + k] + normals[b * 3 + k] + normals[c * 3 + k])
      if (face[0] * mean[0] + face[1] * mean[1] + face[2] * mean[2] < 0) against++
    }
    // The first sitter's own shares are 0.002 and 0.003 (mesh.test.ts). A child's trunk is drawn out to twice its height above
    // the hem, so that the bust ends out of the picture: there, on a plain flank, one triangle in thirty is thin.
    expect(against / (indices.length / 3)).toBeLessThan(0.002)
    expect(thin / (indices.length / 3)).toBeLessThan(name === 'garment' ? 0.04 : 0.012)
  })

  test('normals are unit vectors and follow the moved faces as the first sitter’s follow its own', () => {
    for (const name of ['skin', 'garment']) {
      const now = disagreement(partOf(asset, name).mesh)
      expect(now).toBeLessThan(disagreement(partOf(first, name).mesh) * 1.15 + 0.05)
    }
  })

  test('skin: every vertex has its mirror image', () => {
    const { positions } = partOf(asset, 'skin').mesh
    const key = (x: number, y: number, z: number) => [x, y, z].map((v) => Math.round(v * 1e6)).join()
    const all = new Set<string>()
    for (let i = 0; i < positions.length; i += 3) all.add(key(positions[i], positions[i + 1], positions[i + 2]))
    for (let i = 0; i < positions.length; i += 3)
      if (!all.has(key(0 - positions[i], positions[i + 1], positions[i + 2])))
        throw new Error(`vertex ${i / 3} has none`)
  })

  test('the eyes are level with the origin, each ball round its landmark, of the size of the first', () => {
    for (const [name, side] of [
      ['eyeLeft', 'Left'],
      ['eyeRight', 'Right'],
    ] as const) {
      const centre = asset.landmarks[`eyeCentre${side}`].position
      expect(Math.abs(centre[1])).toBeLessThan(1e-9)
      expect(Math.abs(centre[2])).toBeLessThan(1e-9)
      expect(asset.landmarks[`pupil${side}`].position[2]).toBeCloseTo(first.landmarks[`pupil${side}`].position[2], 7)
      const { positions } = partOf(asset, name).mesh
      const was = first.landmarks[`eyeCentre${side}`].position
      const before = partOf(first, name).mesh.positions
      const moved = positions.map((v, i) => Math.abs(v - centre[i % 3] - (before[i] - was[i % 3])))
      expect(moved.reduce((a, b) => Math.max(a, b))).toBeLessThan(1e-6)
    }
  })

  test('lids lie on the ball all round and never in it', () => {
    const { positions } = partOf(asset, 'skin').mesh
    const before = partOf(first, 'skin').mesh.positions
    const [now, was] = [asset, first].map((a) => a.landmarks.eyeCentreLeft.position[0])
    let checked = 0
    let farthest = 0
    for (let i = 0; i < positions.length; i += 3) {
      const rest = clearance(before, i, was)
      if (before[i] < 0 || rest > 2) continue
      // Skin that lay outside stays outside, to a tenth of a millimetre; the margins of the lids stay where they touch.
      if (rest > 0.02 && clearance(positions, i, now) < -0.1) throw new Error(`vertex ${i / 3} enters the ball`)
      if (Math.abs(rest) < 1 && before[i + 2] > 0.001) {
        farthest = Math.max(farthest, Math.abs(clearance(positions, i, now) - rest))
        checked++
      }
    }
    expect(checked).toBeGreaterThan(200)
    expect(farthest).toBeLessThan(0.35)
  })

  test('the lids open 7.5 to 11 mm before the pupil, and the iris shows between them (common practice, no source)', () => {
    const open = aperture(asset)
    expect(open.upper - open.lower).toBeGreaterThan(7.5)
    expect(open.upper - open.lower).toBeLessThan(11)
    // The upper lid covers the rim of the iris (radius 5.9), not the pupil.
    expect(open.upper).toBeGreaterThan(2.5)
    expect(open.upper).toBeLessThan(5.9)
  })

  test('places lie on their surfaces, with normals out of them', () => {
    for (const name of LANDMARK_NAMES) {
      if (/^(eye|pupil)/.test(name)) continue
      const { position, normal } = asset.landmarks[name]
      expect(Math.hypot(...normal)).toBeCloseTo(1, 6)
      const part = /^(crown|back)/.test(name) ? 'hair' : name.startsWith('shoulder') ? 'garment' : 'skin'
      // Bust places under the cloth are no part of the skin.
      if (name === 'sternalNotch') continue
      const now = distanceTo(partOf(asset, part).mesh, position, normal)
      expect(Math.abs(now), name).toBeLessThan(0.0006)
    }
  })
})

/** Distance along the normal from the mesh's nearest triangle plane that the line through the place meets, metres. */
function distanceTo(mesh: FigureAsset['parts'][0]['mesh'], at: readonly number[], along: readonly number[]): number {
  const { positions: p, indices } = mesh
  let best = Number.POSITIVE_INFINITY
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [indices[t] * 3, indices[t + 1] * 3, indices[t + 2] * 3]
    if (Math.hypot(p[a] - at[0], p[a + 1] - at[1], p[a + 2] - at[2]) > 0.02) continue
    const u = [0, 1, 2].map((k) => p[b + k] - p[a + k])
    const v = [0, 1, 2].map((k) => p[c + k] - p[a + k])
    const w = [0, 1, 2].map((k) => at[k] - p[a + k])
    const h = cross(along, v)
    const det = dot(u, h)
    if (Math.abs(det) < 1e-15) continue
    const s = dot(w, h) / det
    const q = cross(w, u)
    const r = dot(along, q) / det
    if (s < -1e-6 || r < -1e-6 || s + r > 1 + 1e-6) continue
    const distance = dot(v, q) / det
    if (Math.abs(distance) < Math.abs(best)) best = distance
  }
  return best
}

const dot = (a: readonly number[], b: readonly number[]) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const cross = (a: readonly number[], b: readonly number[]) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]

function faceNormal(p: Float32Array, a: number, b: number, c: number): number[] {
  const u = [0, 1, 2].map((k) => p[b * 3 + k] - p[a * 3 + k])
  const v = [0, 1, 2].map((k) => p[c * 3 + k] - p[a * 3 + k])
  return cross(u, v)
}

/** Mean angle between vertex normals and the area-weighted mean of the faces round them, degrees. */
function disagreement({ positions, normals, indices }: FigureAsset['parts'][0]['mesh']): number {
  const sums = new Float64Array(positions.length)
  for (let t = 0; t < indices.length; t += 3) {
    const face = faceNormal(positions, indices[t], indices[t + 1], indices[t + 2])
    for (let corner = 0; corner < 3; corner++) for (let k = 0; k < 3; k++) sums[indices[t + corner] * 3 + k] += face[k]
  }
  let total = 0
  for (let i = 0; i < sums.length; i += 3) {
    const size = Math.hypot(normals[i], normals[i + 1], normals[i + 2])
    if (Math.abs(size - 1) > 1e-3) throw new Error(`normal ${i / 3} has length ${size}`)
    const cosine = (sums[i] * normals[i] + sums[i + 1] * normals[i + 1] + sums[i + 2] * normals[i + 2]) / size
    total += Math.acos(Math.min(1, cosine / Math.hypot(sums[i], sums[i + 1], sums[i + 2])))
  }
  return (total / (sums.length / 3)) * (180 / Math.PI)
}

/** How far outside the left eye a vertex lies, mm: sclera of radius 12, cornea of radius 7.8 about a centre 5.35 forward. */
function clearance(p: Float32Array, i: number, eyeX: number): number {
  const [x, y, z] = [(p[i] - eyeX) * 1000, p[i + 1] * 1000, p[i + 2] * 1000]
  return Math.min(Math.hypot(x, y, z) - 12, Math.hypot(x, y, z - 5.35) - 7.8)
}

/** Heights between which the left eye shows at its middle, seen from the front, mm. */
function aperture(asset: FigureAsset): { readonly upper: number; readonly lower: number } {
  const { positions: p, indices } = partOf(asset, 'skin').mesh
  // A hair's breadth off the centre, so that no edge is met exactly.
  const x = asset.landmarks.eyeCentreLeft.position[0] + 1.3e-5
  const covered: number[] = []
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [indices[t] * 3, indices[t + 1] * 3, indices[t + 2] * 3]
    if (Math.max(p[a], p[b], p[c]) < x || Math.min(p[a], p[b], p[c]) > x) continue
    if (Math.max(Math.abs(p[a + 1]), Math.abs(p[b + 1]), Math.abs(p[c + 1])) > 0.02) continue
    for (const [q, r] of [
      [a, b],
      [b, c],
      [c, a],
    ]) {
      if (p[q] < x === p[r] < x) continue
      const s = (x - p[q]) / (p[r] - p[q])
      const [y, z] = [1, 2].map((k) => (p[q + k] + s * (p[r + k] - p[q + k])) * 1000)
      // In front of the ball there.
      if (z > Math.sqrt(Math.max(0, 144 - y * y)) && z > 5.35 + Math.sqrt(Math.max(0, 60.84 - y * y))) covered.push(y)
    }
  }
  return {
    upper: Math.min(...covered.filter((y) => y > 0)),
    lower: Math.max(...covered.filter((y) => y < 0)),
  }
}
