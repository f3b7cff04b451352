import { expect, test } from 'vitest'
import { poseFigure, sectionThrough, silhouette } from '../../src/figure'
import type { Vec3 } from '../../src/space'
import { asset } from './sculpture'

const REST = {
  positionM: [0, 0, 0] as Vec3,
  eyeHeightM: 1.2,
  bodyTurnDeg: 0,
  headTurnDeg: 0,
  headTiltDeg: 0,
  chinDeg: 0,
}
const UP: Vec3 = [0, 1, 0]
const figure = poseFigure(asset, REST)
const length = (loop: readonly Vec3[]) =>
  loop.reduce((sum, p, i) => sum + Math.hypot(...p.map((v, k) => v - loop[(i + 1) % loop.length][k])), 0)

test('a level cut at the nose is closed, level, and reaches from the nose tip to the back of the head', () => {
  const tip = figure.landmarks.noseTip.position
  const loops = sectionThrough(figure, { point: tip, normal: [0, 1, 0] })
  const all = loops.flat()
  for (const p of all) expect(p[1]).toBeCloseTo(tip[1], 6)
  expect(Math.max(...all.map((p) => p[2]))).toBeCloseTo(tip[2], 3)
  // Neighbours on a loop are neighbours on the mesh: no jump longer than its longest edge.
  for (const loop of loops)
    loop.forEach((p, i) => {
      const q = loop[(i + 1) % loop.length]
      expect(Math.hypot(p[0] - q[0], p[2] - q[2])).toBeLessThan(0.02)
    })
  // Somewhat more than the circumference of an ellipse through nose tip, nape and ears would be less the nose: 0.5 to 0.7 m.
  const head = Math.max(...loops.map(length))
  expect(head).toBeGreaterThan(0.45)
  expect(head).toBeLessThan(0.75)
})

test('a cut through an eyeball behind its cornea is the circle of its radius, 12 mm at the centre', () => {
  const centre = figure.landmarks.eyeCentreLeft.position
  const [loop] = sectionThrough(figure, { point: centre, normal: [0, 0, 1] }, ['eyeLeft'])
  for (const p of loop) expect(Math.hypot(p[0] - centre[0], p[1] - centre[1])).toBeCloseTo(0.012, 4)
  expect(length(loop)).toBeCloseTo(2 * Math.PI * 0.012, 3)
})

test('the profile from the side reaches the nose tip and the back of the head; from the front it is symmetric', () => {
  const side = silhouette(figure, [0, 0, -1], UP, { parts: ['skin', 'eyeLeft'] })
  // Looking along −x, right is −z: the sitter's front is to the viewer's left.
  const tip = figure.landmarks.noseTip.position
  expect(Math.abs(Math.min(...side.map(([x]) => x)) + tip[2]), 'the coarse triangles lie within 1.5 mm').toBeLessThan(
    1.5e-3,
  )
  const front = silhouette(figure, [1, 0, 0], UP, { parts: ['skin'] })
  const apart = (p: readonly [number, number]) => Math.min(...front.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1])))
  // Both halves of the mesh are mirrored to a hundredth of a millimetre, its coarse triangles are not.
  for (const [x, y] of front) expect(apart([-x, y])).toBeLessThan(2e-3)
})

test.each([
  ['from the front', [1, 0, 0] as Vec3],
  ['from the side', [0, 0, -1] as Vec3],
])('the crown is round to its top, seen %s', (_, across) => {
  const outline = silhouette(figure, across, UP)
  const highest = Math.max(...figure.parts.flatMap(({ mesh }) => [...mesh.positions].filter((_v, i) => i % 3 === 1)))
  expect(Math.max(...outline.map(([, y]) => y))).toBeCloseTo(highest, 6)
  // A crown of 75 mm radius or more is 42 mm wide 3 mm below its top: in one piece that would be a flat.
  const crown = outline
    .map((p, i) => [p, outline[(i + 1) % outline.length]] as const)
    .filter(([p, q]) => Math.min(p[1], q[1]) > highest - 0.0031)
  for (const [p, q] of crown) expect(Math.abs(q[0] - p[0])).toBeLessThan(0.025)
  expect(crown.length).toBeGreaterThan(2)
})

test('the whole outline stands from the bottom of the bust to the crown', () => {
  const heights = silhouette(figure, [1, 0, 0], UP).map(([, y]) => y)
  expect(Math.max(...heights)).toBeCloseTo(figure.landmarks.crown.position[1], 2)
  expect(Math.min(...heights)).toBeLessThan(1.2 - 0.32)
})
