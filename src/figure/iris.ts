/**
 * An eye behind its cornea, in millimetres of the ball's own frame: origin its centre, z its line of sight. Twin of
 * src/render/shaders/eye-optics.glsl, which draws it.
 *
 * One refracting surface, from air into aqueous humour: with Gullstrand's schematic eye (radius 7.8, n = 1.336, the pupil
 * 3.6 behind the cornea's front) it shows the pupil 3.05 behind the front and 1.13 times as wide, as the full eye does. The
 * cornea's own 1.376 would need its back surface too.
 */
import { cross, dot, hash32, length, normalize, subtract, type Vec3 } from '../space'
import { CORNEA_CENTRE_Z, CORNEA_RADIUS } from './sculpt/data/eye'
import { mix, smoothStep } from './sculpt/solids'

export const AQUEOUS = 1.336
/** Of the iris on the axis: the plane of the pupil. Towards its root the iris comes forward by IRIS_RISE · r² (from memory). */
export const IRIS_Z = 9.55
const IRIS_RISE = 0.01
/** Without the cornea's magnification; wide for a room with modelling light, narrow for a dark one (from memory). */
export const PUPIL_RADIUS = 1.55

/** 1 behind the clear cornea, 0 on the white, by the distance from the axis: a limbus is about a millimetre wide (from memory). */
export const clearAt = (fromAxis: number): number => 1 - smoothStep(5, 6.2, fromAxis)

/** Snell's law into the denser side; ray and normal unit, the ray against the normal. */
function refracted(ray: Vec3, normal: Vec3): Vec3 {
  const eta = 1 / AQUEOUS
  const c = dot(normal, ray)
  const k = 1 - eta * eta * (1 - c * c)
  const along = eta * c + Math.sqrt(k)
  return [0, 1, 2].map((i) => eta * ray[i] - along * normal[i]) as unknown as Vec3
}

/** Where the ray through p of the cornea meets the iris. ray: unit, inwards. Seen from behind the iris: straight under p. */
export function irisBehind(p: Vec3, normal: Vec3, ray: Vec3): Vec3 {
  const d = refracted(ray, normal)
  const a = IRIS_RISE * (d[0] * d[0] + d[1] * d[1])
  const b = 2 * IRIS_RISE * (p[0] * d[0] + p[1] * d[1]) - d[2]
  const height = IRIS_Z + IRIS_RISE * (p[0] * p[0] + p[1] * p[1])
  const c = Math.min(0, height - p[2])
  if (b <= 0.05) return [p[0], p[1], height]
  const way = (-2 * c) / (b + Math.sqrt(b * b - 4 * a * c))
  return [p[0] + d[0] * way, p[1] + d[1] * way, p[2] + d[2] * way]
}

export interface Entry {
  readonly at: Vec3
  readonly normal: Vec3
  /** Irradiance of the iris as a multiple of the cornea's there, losses by reflection apart. */
  readonly share: number
}

/** The iris without its relief at a place; unit. */
export const irisNormalAt = (x: number, y: number): Vec3 => normalize([-2 * IRIS_RISE * x, -2 * IRIS_RISE * y, 1])

/** Where light from a far place enters on its way to q, and its direction inside. towards: unit, to the light. */
function wayTo(q: Vec3, towards: Vec3): { readonly at: Vec3; readonly normal: Vec3; readonly bent: Vec3 } {
  const from = subtract(q, [0, 0, CORNEA_CENTRE_Z])
  const back: Vec3 = [-towards[0], -towards[1], -towards[2]]
  let bent = back
  let at = q
  let normal: Vec3 = [0, 0, 1]
  for (let i = 0; i < 3; i++) {
    const along = dot(from, bent)
    const way = along + Math.sqrt(Math.max(0, along * along - dot(from, from) + CORNEA_RADIUS ** 2))
    at = [q[0] - bent[0] * way, q[1] - bent[1] * way, q[2] - bent[2] * way]
    normal = [at[0] / CORNEA_RADIUS, at[1] / CORNEA_RADIUS, (at[2] - CORNEA_CENTRE_Z) / CORNEA_RADIUS]
    if (dot(normal, towards) <= 0) break
    bent = refracted(back, normal)
  }
  return { at, normal, bent }
}

const APART = 0.1

/**
 * Where light from a far place enters on its way to q of the iris, whose normal there, relief and all, is given. What enters by a
 * patch of the cornea is spread over the patch of the iris that it comes to: smaller on the axis, and smallest across from a
 * light at the side, which is the bright crescent there.
 */
export function entryTo(q: Vec3, towards: Vec3, irisNormal: Vec3): Entry {
  const { at, normal, bent } = wayTo(q, towards)
  const [aside, above] = [wayTo([q[0] + APART, q[1], q[2]], towards).at, wayTo([q[0], q[1] + APART, q[2]], towards).at]
  const patch = length(cross(subtract(aside, at), subtract(above, at))) / APART ** 2
  const smooth = irisNormalAt(q[0], q[1])
  const facing = -dot(bent, smooth)
  const meets = dot(normal, towards) > 0 && dot(bent, normal) < 0 && at[2] > IRIS_Z && facing > 0.05
  if (!meets) return { at, normal, share: 0 }
  const relief = Math.min(3, Math.max(0, -dot(bent, irisNormal)) / facing)
  return { at, normal, share: clearAt(Math.hypot(at[0], at[1])) * Math.min(4, patch) * smooth[2] * relief }
}

const latticeAt = (i: number, j: number): number => (hash32(i, j) >>> 8) / 16777216

/** Smooth noise round a circle: so many cells a turn, others at each whole v. */
export function ringNoise(turn: number, cells: number, v: number, seed: number): number {
  const x = turn * cells
  const [i, j] = [Math.floor(x), Math.floor(v)]
  const smooth = (t: number) => t * t * (3 - 2 * t)
  const [fx, fy] = [smooth(x - i), smooth(v - j)]
  const left = ((i % cells) + cells) % cells
  const right = (left + 1) % cells
  const row = j + 64 * seed
  return mix(
    mix(latticeAt(left, row), latticeAt(right, row), fx),
    mix(latticeAt(left, row + 1), latticeAt(right, row + 1), fx),
    fy,
  )
}

/** Fibres run from the pupil to the root, a few swaying together: 0 in a gap, 1 on a fibre. */
function fibre(turn: number, cells: number, v: number, seed: number): number {
  return 1 - Math.abs(2 * ringNoise(turn, cells, v, seed) - 1)
}

const turnOf = (x: number, y: number): number => Math.atan2(y, x) / (2 * Math.PI) + 0.5
const swayOf = (turn: number, r: number): number => 0.014 * (ringNoise(turn, 11, r * 0.6, 1) - 0.5)

/** How far out from the frill that parts the pupil's zone and the outer one, in its half widths. */
const offFrill = (turn: number, r: number): number =>
  (r - 2.7 - 0.6 * (ringNoise(turn, 17, 0.5, 4) - 0.5) - 0.2 * (ringNoise(turn, 43, 0.5, 6) - 0.5)) / 0.35

const hollowAt = (turn: number, r: number, off: number): number =>
  smoothStep(0.62, 0.8, ringNoise(turn, 19, r * 0.8, 5)) * smoothStep(0, 0.5, off)

/** Height of the iris's relief, mm; footprintMm: of a pixel, below which nothing is drawn. */
function irisHeight(x: number, y: number, footprintMm: number): number {
  const r = Math.hypot(x, y)
  const turn = turnOf(x, y)
  const fibres = turn + swayOf(turn, r)
  const off = offFrill(turn, r)
  const share = 1 - smoothStep(0.06, 0.16, footprintMm)
  const threads = 0.05 * fibre(fibres, 52, r * 0.3, 2) + 0.022 * fibre(fibres, 120, r * 0.45, 3)
  return share * threads + 0.1 * Math.exp(-off * off) - 0.09 * hollowAt(turn, r, off)
}

const SLOPE_STEP = 0.03

/** The same as slopes, without the iris's own rise. */
export function irisSlopes(x: number, y: number, footprintMm: number): readonly [number, number] {
  const here = irisHeight(x, y, footprintMm)
  return [
    (irisHeight(x + SLOPE_STEP, y, footprintMm) - here) / SLOPE_STEP,
    (irisHeight(x, y + SLOPE_STEP, footprintMm) - here) / SLOPE_STEP,
  ]
}

/**
 * Reflectance of a place of the iris as a multiple of its colour: pupil, fibres, collarette, dark rim; generic, nobody's.
 * footprintMm: of a pixel, below which nothing is drawn.
 */
export function irisTone(x: number, y: number, footprintMm: number): number {
  const r = Math.hypot(x, y)
  const turn = turnOf(x, y)
  const fibres = turn + swayOf(turn, r)
  const off = offFrill(turn, r)
  const share = 1 - smoothStep(0.06, 0.16, footprintMm)
  const coarse = fibre(fibres, 52, r * 0.3, 2) - 0.5
  const threads = share * (fibre(fibres, 120, r * 0.45, 3) - 0.5)
  const blotch = ringNoise(turn, 9, r * 0.5, 7) - 0.5
  const inner = mix(0.86, 1, smoothStep(-1, 1, off))
  const tone =
    inner * (0.96 + 0.5 * coarse + 0.5 * threads + 0.35 * blotch) +
    0.22 * Math.exp(-off * off) -
    0.3 * hollowAt(turn, r, off)
  const ruff = smoothStep(PUPIL_RADIUS, PUPIL_RADIUS + 0.3, r)
  const rim = mix(1, 0.22, smoothStep(4.2, 5.7, r))
  const open = smoothStep(PUPIL_RADIUS - 0.08, PUPIL_RADIUS + 0.08, r)
  return Math.max(0.08, tone) * mix(0.35, 1, ruff) * rim * open
}
