import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { catchlightEdge, catchlightOffset, mirrorPoint } from '../../src/photometry'
import {
  add,
  basisAround,
  distance,
  dot,
  normalize,
  radians,
  rotateAbout,
  scale,
  subtract,
  type Vec3,
} from '../../src/space'

const R = 0.0078
const from = (az: number, el: number, d: number): Vec3 => {
  const [a, e] = [radians(az), radians(el)]
  return [d * Math.sin(a) * Math.cos(e), d * Math.sin(e), d * Math.cos(a) * Math.cos(e)]
}

/**
 * Fermat: light takes the shortest way there is by a point of the ball. Found by ever smaller steps over the ball from the
 * halfway direction, knowing nothing of angles.
 */
function shortestWay(centre: Vec3, viewer: Vec3, lamp: Vec3): Vec3 {
  const on = (n: Vec3) => add(centre, scale(n, R))
  const way = (n: Vec3) => distance(viewer, on(n)) + distance(on(n), lamp)
  let n = normalize(add(normalize(subtract(viewer, centre)), normalize(subtract(lamp, centre))))
  for (let step = 0.2; step > 1e-7; ) {
    const [u, v] = basisAround(n)
    const next = [u, v, scale(u, -1), scale(v, -1)].map((d) => normalize(add(n, scale(d, step))))
    const best = next.reduce((a, b) => (way(b) < way(a) ? b : a))
    if (way(best) < way(n)) n = best
    else step /= 2
  }
  return on(n)
}

test('the mirror image lies where the way of the light is shortest (Fermat)', () => {
  const place = fc.tuple(
    fc.double({ min: -80, max: 80, noNaN: true }),
    fc.double({ min: -60, max: 70, noNaN: true }),
    fc.double({ min: 0.2, max: 4, noNaN: true }),
  )
  fc.assert(
    fc.property(place, place, ([az, el, d], [az2, el2, d2]) => {
      const centre: Vec3 = [0.3, 1.2, -0.1]
      const [viewer, lamp] = [add(centre, from(az, el, d)), add(centre, from(az2, el2, d2))]
      const found = mirrorPoint(centre, R, viewer, lamp)
      if (!found) return
      // Lengths of metres in double precision know the place on a flat minimum to some micrometres.
      expect(distance(found, shortestWay(centre, viewer, lamp))).toBeLessThan(2e-5)
      expect(distance(found, centre)).toBeCloseTo(R, 12)
    }),
    { numRuns: 200, seed: 20260101 },
  )
})

test('normal, lens and lamp: equal angles in one plane, and turning all turns the point', () => {
  const [viewer, lamp]: Vec3[] = [from(10, -5, 2), from(50, 35, 1.2)]
  const at = mirrorPoint([0, 0, 0], R, viewer, lamp)!
  const n = normalize(at)
  const [v, l] = [viewer, lamp].map((p) => normalize(subtract(p, at)))
  expect(dot(n, v)).toBeCloseTo(dot(n, l), 12)
  expect(normalize(add(v, l))).toEqual(n.map((x) => expect.closeTo(x, 9)))
  const turned = (p: Vec3) => rotateAbout(p, normalize([1, 2, 3]), 1.1)
  expect(distance(mirrorPoint([0, 0, 0], R, turned(viewer), turned(lamp))!, turned(at))).toBeLessThan(1e-12)
})

describe('closed forms', () => {
  test.each([20, 40, 60, 90])('far away, %d° from the lens: R·sin(t/2) from the middle', (t) => {
    const at = mirrorPoint([0, 0, 0], R, [0, 0, 1e6], from(0, t, 1e6))!
    expect(at[1]).toBeCloseTo(catchlightOffset(radians(t), R), 9)
    expect(at[0]).toBeCloseTo(0, 12)
  })
  test('near, seen from far off along the axis: as the end of a source on the axis', () => {
    const at = mirrorPoint([0, 0, 0], R, [0, 0, 1e6], [0.3, 0, R + 0.8])!
    expect(at[0]).toBeCloseTo(catchlightEdge(0.3, 0.8, R), 9)
  })
  test('in line with the lens: in the middle', () => {
    expect(mirrorPoint([0, 0, 0], R, [0, 0, 2], [0, 0, 1])).toEqual([0, 0, R])
  })
})

test('nothing where the ball hides the lamp, or a point lies in the ball', () => {
  expect(mirrorPoint([0, 0, 0], R, [0, 0, 2], [0, 0, -1])).toBeNull()
  expect(mirrorPoint([0, 0, 0], R, [0, 0, 2], [0.001, 0, -1])).toBeNull()
  expect(mirrorPoint([0, 0, 0], R, [0, 0, 2], [0.006, 0.001, -0.3])).toBeNull()
  expect(mirrorPoint([0, 0, 0], R, [0, 0, 0.005], [0, 1, 1])).toBeNull()
  // Just past the side it still grazes the edge.
  expect(mirrorPoint([0, 0, 0], R, [0, 0, 2], from(170, 0, 2))).not.toBeNull()
})
