import { type BodyMeaning, bodiesOf, materialAt } from '../../src/meter'
import type { Rgb } from '../../src/photometry'
import type { Rig, RigSource, View } from '../../src/rig'
import {
  addScaled,
  directionToLocal,
  directionToWorld,
  dot,
  type Hit,
  hash32,
  normalize,
  pointToLocal,
  pointToWorld,
  type RayCaster,
  sobol,
  subtract,
  type Vec3,
} from '../../src/space'

/**
 * The judge of the direct light in the picture: exact rays to random points of the lit surface by the area route
 * (Emission.at and luminance), where the renderer draws by the flux route (Emission.sample) and asks shadow maps.
 * Matt surfaces only; a rig under this judge should have skinF0 0 and no metal in view.
 */
export interface DirectPicture {
  readonly width: number
  readonly height: number
  /** Per source of the rig, in its order: radiance per 1 cd·s in white light, RGB a pixel, row 0 at the bottom, 1/m². */
  readonly layers: readonly Float32Array[]
  /** 1 where every sub-sample met the same body from the same side: elsewhere antialiasing is compared, not light. */
  readonly inside: Uint8Array
  /** Body number at the pixel's middle in bodiesOf(rig); −1: nothing. */
  readonly body: Int32Array
  /** World position at the pixel's middle, m. */
  readonly position: Float32Array
}

export interface DirectOptions {
  /** Sub-samples spread over the pixel; false: all through its middle, as one unjittered G-buffer sees it. */
  readonly spread?: boolean
  /** false: as if nothing stood in the way but the source's own dish and body. */
  readonly shadowed?: boolean
  readonly seed?: number
}

/** Metres by which a ray starts off the surface it leaves. */
const LIFT = 2e-4
/** Of rays from one place: when so many all bring light, or none does, the rest would say the same. */
const ENOUGH = 128

/** caster: over bodiesOf(rig).bodies, in that order. */
export function cpuDirect(
  rig: Rig,
  caster: RayCaster,
  width: number,
  height: number,
  samplesPerPixel: number,
  { spread = true, shadowed = true, seed = 1 }: DirectOptions = {},
): DirectPicture {
  const { meanings, gearOf } = bodiesOf(rig)
  const layers = rig.sources.map(() => new Float32Array(3 * width * height))
  const inside = new Uint8Array(width * height)
  const body = new Int32Array(width * height)
  const position = new Float32Array(3 * width * height)
  for (let pixel = 0; pixel < width * height; pixel++) {
    const column = pixel % width
    const row = Math.floor(pixel / width)
    const middle = seenAt(rig.view, caster, meanings, (column + 0.5) / width, (row + 0.5) / height, height / width)
    body[pixel] = middle ? middle.hit.bodyIndex : -1
    if (middle) position.set(middle.point, 3 * pixel)
    let same = 1
    const lit = rig.sources.map(() => 0)
    let drawn = 0
    for (let s = 0; s < samplesPerPixel; s++) {
      if (!spread && s === ENOUGH && lit.every((count) => count === 0 || count === s)) break
      drawn++
      const draw = (d: number) => sobol(s, d, hash32(hash32(seed, pixel), d))
      const [x, y] = spread ? [draw(0), draw(1)] : [0.5, 0.5]
      const seen = spread
        ? seenAt(rig.view, caster, meanings, (column + x) / width, (row + y) / height, height / width)
        : middle
      if (!seen || !middle || seen.hit.bodyIndex !== middle.hit.bodyIndex || dot(seen.flat, middle.flat) < 0) same = 0
      if (!seen) continue
      rig.sources.forEach((source, i) => {
        const ignore = gearOf.get(source.id)
        const visible = (lit: Vec3) => !shadowed || caster.visible(seen.lifted, lit, ignore)
        const e = irradianceSample(source, seen, draw(2), draw(3), visible)
        if (e > 0) lit[i]++
        for (let band = 0; band < 3; band++) layers[i][3 * pixel + band] += (seen.albedo[band] * e) / Math.PI
      })
    }
    for (const layer of layers) for (let band = 0; band < 3; band++) layer[3 * pixel + band] /= drawn
    inside[pixel] = same
  }
  return { width, height, layers, inside, body, position }
}

export interface SeenPoint {
  readonly hit: Hit
  readonly point: Vec3
  readonly lifted: Vec3
  /** Interpolated normal of a sitter or ball, else the flat one. */
  readonly normal: Vec3
  readonly flat: Vec3
  readonly albedo: Rgb
}

/** x, y from 0 to 1 from the picture's lower left; aspect: height over width. The sensor's width spans the picture's. */
export function seenAt(
  view: View,
  caster: RayCaster,
  meanings: readonly BodyMeaning[],
  x: number,
  y: number,
  aspect: number,
): SeenPoint | null {
  const tangent = view.sensorWidthMm / (2 * view.focalLengthMm)
  const { origin, x: left, y: up, z } = view.frame
  const across = (1 - 2 * x) * tangent
  const direction = normalize(addScaled(addScaled(z, left, across), up, (2 * y - 1) * tangent * aspect))
  const hit = caster.nearest(origin, direction)
  if (!hit) return null
  const meaning = meanings[hit.bodyIndex]
  const material = materialAt(meaning, hit, direction)
  const point = addScaled(origin, direction, hit.distance)
  return {
    hit,
    point,
    lifted: addScaled(point, hit.normal, LIFT),
    normal: shadingNormal(meaning, hit, point),
    flat: hit.normal,
    albedo: material?.kind === 'matt' ? material.albedo : [0, 0, 0],
  }
}

function shadingNormal(meaning: BodyMeaning, hit: Hit, point: Vec3): Vec3 {
  if (meaning.kind === 'ball') return normalize(subtract(point, meaning.ball.centre))
  if (meaning.kind !== 'figure') return hit.normal
  const { normals, indices } = meaning.part.mesh
  let normal: Vec3 = [0, 0, 0]
  for (let corner = 0; corner < 3; corner++) {
    const i = 3 * indices[3 * hit.triangle + corner]
    normal = addScaled(normal, [normals[i], normals[i + 1], normals[i + 2]], hit.barycentric[corner])
  }
  return normalize(normal)
}

/** One random point of every emitter of the source: L·cos·cos·A/r², 1/m² per cd·s. */
function irradianceSample(
  source: RigSource,
  { lifted, normal, flat }: SeenPoint,
  u: number,
  v: number,
  visible: (lit: Vec3) => boolean,
): number {
  let sum = 0
  for (const { frame, emission } of source.emitters) {
    const at = emission.at(u, v)
    const lit = pointToWorld(frame, at.point)
    const way = subtract(lit, lifted)
    const squared = dot(way, way)
    const towards = normalize(way)
    const cosSeen = dot(normal, towards)
    const cosSent = -dot(directionToWorld(frame, at.normal), towards)
    if (cosSeen <= 0 || cosSent <= 0 || dot(flat, towards) <= 0) continue
    const luminance = emission.luminance(at, directionToLocal(frame, [-towards[0], -towards[1], -towards[2]]))
    if (luminance <= 0) continue
    const local = pointToLocal(frame, lifted)
    if (emission.blockers.some((b) => cuts(at.point, local, b)) || !visible(lit)) continue
    sum += (luminance * cosSeen * cosSent * at.areaM2) / squared
  }
  return sum
}

/** True when the segment meets the capped cylinder: |p + t·q|² ≤ r² solved for t, and the two end discs. */
function cuts(
  a: Vec3,
  b: Vec3,
  { from, to, radiusM }: { readonly from: Vec3; readonly to: Vec3; readonly radiusM: number },
): boolean {
  const size = Math.hypot(...subtract(to, from))
  const axis = normalize(subtract(to, from))
  const d = subtract(b, a)
  const s = subtract(a, from)
  const [sz, dz] = [dot(s, axis), dot(d, axis)]
  const p = addScaled(s, axis, -sz)
  const q = addScaled(d, axis, -dz)
  const inEnds = [0, size].some((end) => {
    const t = (end - sz) / dz
    return t >= 0 && t <= 1 && Math.hypot(...addScaled(p, q, t)) <= radiusM
  })
  if (inEnds) return true
  const [qq, pq, pp] = [dot(q, q), dot(p, q), dot(p, p)]
  const inner = pq * pq - qq * (pp - radiusM * radiusM)
  if (qq === 0 || inner < 0) return false
  return [-1, 1].some((sign) => {
    const t = (-pq + sign * Math.sqrt(inner)) / qq
    const along = sz + t * dz
    return t >= 0 && t <= 1 && along >= 0 && along <= size
  })
}
