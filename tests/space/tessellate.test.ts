import { expect, test } from 'vitest'
import {
  ballMesh,
  capMesh,
  cross,
  cylinderMesh,
  discMesh,
  dot,
  length,
  type Mesh,
  rectangleMesh,
  scale,
  subtract,
  type Vec3,
} from '../../src/space'

function triangles({ positions: p, indices, normals }: Mesh) {
  return Array.from({ length: indices.length / 3 }, (_, t) => {
    const [a, b, c] = [0, 1, 2].map((k): Vec3 => {
      const i = 3 * indices[3 * t + k]
      return [p[i], p[i + 1], p[i + 2]]
    })
    const n = 3 * indices[3 * t]
    return {
      a,
      across: scale(cross(subtract(b, a), subtract(c, a)), 0.5),
      normal: [normals[n], normals[n + 1], normals[n + 2]] as Vec3,
    }
  })
}
const areaOf = (mesh: Mesh) => triangles(mesh).reduce((sum, { across }) => sum + length(across), 0)
/** Divergence theorem: positive when every facet is wound outwards. */
const volumeOf = (mesh: Mesh) => triangles(mesh).reduce((sum, { a, across }) => sum + dot(a, across) / 3, 0)

test('areas and volumes by the formulas of Euclid and Archimedes', () => {
  const at: Vec3 = [0.3, 1, -0.2]
  const cylinder = cylinderMesh(at, [0.3, 1, 0.3], 0.1, { sides: 96 })
  expect(volumeOf(cylinder) / (Math.PI * 0.01 * 0.5)).toBeCloseTo(1, 4)
  expect(areaOf(cylinder) / (2 * Math.PI * 0.1 * 0.5 + 2 * Math.PI * 0.01)).toBeCloseTo(1, 2)
  const ball = ballMesh(at, 0.2)
  expect(volumeOf(ball) / ((4 / 3) * Math.PI * 0.008)).toBeCloseTo(1, 2)
  expect(areaOf(ball) / (4 * Math.PI * 0.04)).toBeCloseTo(1, 2)
  expect(areaOf(discMesh(at, [0, 1, 0], 0.5)) / (Math.PI * 0.25)).toBeCloseTo(1, 5)
  const sphere = (0.25 + 0.04) / 0.4
  expect(areaOf(capMesh(at, [0, 0, -1], 1, 0.2)) / (2 * Math.PI * sphere * 0.2)).toBeCloseTo(1, 2)
  expect(areaOf(rectangleMesh(at, [0.5, 0, 0], [0, 0, 1]))).toBeCloseTo(2, 6)
})

test('normals: along the winding, out of the hollow of a cap, along a disc, on the front of a rectangle', () => {
  const cap = capMesh([0, 0, 0], [0, 0, 1], 1, 0.2)
  for (const { across, normal } of triangles(cap)) {
    expect(dot(across, normal) / length(across)).toBeCloseTo(1, 4)
    expect(normal[2]).toBeGreaterThan(0)
  }
  for (const { normal } of triangles(discMesh([0, 0, 0], [0, 1, 0], 1))) expect(normal[1]).toBeCloseTo(1, 5)
  for (const { normal } of triangles(rectangleMesh([0, 0, 0], [1, 0, 0], [0, 1, 0])))
    expect(normal[2]).toBeCloseTo(1, 5)
})
