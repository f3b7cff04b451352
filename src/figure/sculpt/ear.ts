import { tube } from './curves'
import * as data from './data/ear'
import { ellipsoid, mix, smoothMax, smoothMin, smoothStep } from './solids'

const helix = tube(data.HELIX, 4)
const antihelix = tube(data.ANTIHELIX, 4)
const fork = tube(data.ANTIHELIX_FORK, 4)
const scapha = tube(data.SCAPHA, 4)
const [TILT_COS, TILT_SIN] = [Math.cos(data.TILT_RAD), Math.sin(data.TILT_RAD)]
const [FLARE_COS, FLARE_SIN] = [Math.cos(data.FLARE_RAD), Math.sin(data.FLARE_RAD)]
const REACH = 44

/** In the ear's own frame, before v is scaled: u up, v back, w outward. x ≥ 0. */
function inEar(x: number, y: number, z: number): readonly [number, number, number] {
  const x0 = x - data.EAR_ORIGIN[0]
  const y0 = y - data.EAR_ORIGIN[1]
  const z0 = z - data.EAR_ORIGIN[2]
  const u = (y0 * TILT_COS - z0 * TILT_SIN) / data.SCALE
  const back = -y0 * TILT_SIN - z0 * TILT_COS
  const v = (FLARE_SIN * x0 + FLARE_COS * back) / (data.SCALE * data.BREADTH_SCALE)
  const w = (FLARE_COS * x0 - FLARE_SIN * back) / data.SCALE + data.LOBE_TURNS_IN * smoothStep(-2, -22, u)
  return [u, v, w]
}

const isNear = ([u, v, w]: readonly [number, number, number]): boolean =>
  (u - 10) ** 2 + (v - 14) ** 2 + w * w < REACH * REACH

/** The head with the ear joined on. x ≥ 0. */
export function withEar(head: number, x: number, y: number, z: number): number {
  const at = inEar(x, y, z)
  if (!isNear(at)) return head
  const [u, v, w] = at
  return smoothMin(head, data.SCALE * pinna(u, v, w), 5)
}

const concha = (u: number, v: number, w: number): number =>
  smoothMin(ellipsoid(u + 1, v - 9.5, w - 2.5, 9.5, 8.4, 10), ellipsoid(u - 13, v - 10, w - 1.5, 7, 7, 7.5), 5)

const triangularFossa = (u: number, v: number, w: number): number => ellipsoid(u - 28.5, v - 10.5, w - 4.5, 5, 4.4, 3.4)

/** From 0 to 1, how deep a place of the skin lies in the ear's hollows. x ≥ 0. */
export function earHollow(x: number, y: number, z: number): number {
  const at = inEar(x, y, z)
  if (!isNear(at)) return 0
  const [u, v, w] = at
  const inConcha = smoothStep(1.8, -0.6, concha(u, v, w)) * mix(0.45, 1, smoothStep(3, -5, w))
  const inScapha = 0.6 * smoothStep(1.2, -0.1, scapha(u, v, w)) * smoothStep(5.2, 2.8, w)
  const inFossa = 0.55 * smoothStep(1.2, -0.3, triangularFossa(u, v, w))
  return Math.max(inConcha, inScapha, inFossa)
}

/** The ear itself, and so far round it, mm, as the skull's skin goes over into it. x ≥ 0. */
export function onEar(x: number, y: number, z: number): boolean {
  const at = inEar(x, y, z)
  return isNear(at) && data.SCALE * pinna(...at) < ROUND_EAR
}
const ROUND_EAR = 1.5

/** The ear alone in its frame, before v is scaled: u up, v back, w outward. */
export function pinna(u: number, v: number, w: number): number {
  const outline = smoothMin(ellipsoid(u - 12, v - 16.8, 0, 27, 17.6, 1e3), Math.hypot(u + 14, v - 9.5) - 8, 10)
  let f = smoothMax(outline, Math.abs(w + 0.3) - 2.5, 2.5)
  f = smoothMin(f, ellipsoid(u - 4, v - 10, w + 9, 19, 12, 9), 5)
  f = smoothMax(f, -concha(u, v, w), 4)
  f = smoothMin(f, helix(u, v, w), 2.6)
  f = smoothMin(f, antihelix(u, v, w), 2.6)
  f = smoothMin(f, fork(u, v, w), 2.6)
  f = smoothMax(f, -scapha(u, v, w), 1.5)
  f = smoothMax(f, -triangularFossa(u, v, w), 2.5)
  const tragus = ellipsoid(u + 1.5, v - 0.6, w - 1.6, 6.2, 3, 3.2)
  const antitragus = ellipsoid(u + 8.6, v - 13.5, w - 1, 3.4, 4.4, 3.2)
  const lobe = ellipsoid(u + 15, v - 10, w - 0.3, 7.8, 7.6, 3.4)
  return smoothMin(smoothMin(smoothMin(f, tragus, 3), antitragus, 3), lobe, 3.5)
}
