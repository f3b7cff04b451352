import { BREADTH_SCALE, SCALE } from '../../src/figure/sculpt/data/ear'
import { pinna } from '../../src/figure/sculpt/ear'
import { argMax, frontOf, march, sideOf } from '../../src/figure/sculpt/landmarks'
import { bust } from './sculpture'

/** Callipers on the uncut bust without hair, in millimetres. */
type Point = readonly [number, number, number]

export const front = (x: number, y: number): Point => frontOf(bust, x, y)
export const side = (y: number, z: number): Point => sideOf(bust, y, z)
export const profileZ = (y: number): number => front(0, y)[2]
const midline = (from: number, to: number, sign: 1 | -1): Point =>
  front(
    0,
    argMax(from, to, 0.25, (y) => sign * profileZ(y)),
  )

export const glabella = midline(10, 34, 1)
export const sellion = midline(-6, 14, -1)
export const pronasale = midline(-46, -24, 1)
export const subnasale = midline(-56, -42, -1)
export const stomion = midline(-71, -64, -1)
export const pogonion = midline(-108, -89, 1)
const underChin = (z: number): Point => march(bust, [0, -135, z], [0, 1, 0])
export const menton = underChin(argMax(0, 22, 0.5, (z) => -underChin(z)[1]))
const onTop = (z: number): Point => march(bust, [0, 200, z], [0, -1, 0])
export const vertex = onTop(argMax(-110, -50, 1, (z) => onTop(z)[1]))
const fromBehind = (y: number): Point => march(bust, [0, y, -260], [0, 0, 1])
export const opisthocranion = fromBehind(argMax(-20, 70, 1, (y) => -fromBehind(y)[2]))
export const cervicale = fromBehind(-130)

/** The widest point of a region of the side view. */
function widest(
  y: readonly [number, number],
  z: readonly [number, number],
  step: number,
  skip?: (y: number, z: number) => boolean,
) {
  let best: Point = [0, 0, 0]
  for (let b = y[0]; b <= y[1]; b += step)
    for (let c = z[0]; c <= z[1]; c += step) {
      if (skip?.(b, c)) continue
      const p = side(b, c)
      if (p[0] > best[0]) best = p
    }
  return best
}
/** Over the ears, so rows that would meet the ear are left out. */
export const euryon = widest([10, 70], [-130, -50], 3, (y, z) => y < 35 && z < -65)
export const zygion = widest([-36, -6], [-50, -20], 2)
export const gonion = side(-79, -56)
export const frontotemporale = side(28, 0)
export const tragion = side(-17, -71.5)

/** Where the wing of the nose ends: the steepest fall of the front view at its height. */
export const alareX = argMax(10, 22, 0.1, (x) => front(x, -40)[2] - front(x + 0.5, -40)[2])

/** Length of a closed horizontal section about a centre, mm. */
export function girth(field: (x: number, y: number, z: number) => number, y: number, centreZ: number): number {
  const steps = 240
  const points = Array.from({ length: steps }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / steps
    const out: Point = [Math.sin(angle), 0, Math.cos(angle)]
    return march(field, [180 * out[0], y, centreZ + 180 * out[2]], [-out[0], 0, -out[2]])
  })
  return points.reduce((sum, p, i) => sum + gap(p, points[(i + 1) % steps]), 0)
}

export const gap = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])

/** Length and breadth of the ear along and across its own axis, mm: the extent of the part that stands out of the head. */
export function earSize(): { readonly length: number; readonly breadth: number } {
  const u: number[] = []
  const v: number[] = []
  for (let a = -30; a <= 50; a += 0.5)
    for (let b = -10; b <= 45; b += 0.5)
      for (let w = -1; w <= 8; w++)
        if (pinna(a, b, w) < 0) {
          u.push(a)
          v.push(b)
        }
  const span = (values: readonly number[]) =>
    values.reduce((x, y) => Math.max(x, y)) - values.reduce((x, y) => Math.min(x, y))
  return { length: span(u) * SCALE, breadth: span(v) * SCALE * BREADTH_SCALE }
}
