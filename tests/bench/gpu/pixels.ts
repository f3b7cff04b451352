import { createRayCaster } from '../../../src/rays'
import type { Rig } from '../../../src/rig'
import { addScaled, type Body, normalize, type RayCaster, type Vec3 } from '../../../src/space'

/** What each pixel shows, found by rays and not by the renderer that is judged. Rows from the top. */
export interface Regions {
  /** 1: sitter, well inside; 2: set, well inside; 0: within two pixels of an outline, or nothing. */
  readonly region: Uint8Array
  readonly pixels: { readonly figure: number; readonly set: number; readonly outline: number }
}

export const FIGURE = 1
export const SET = 2
/** A step in depth between neighbours that counts as an outline, m. */
const STEP_M = 0.02
const MARGIN_PX = 2

export interface SeenPixels {
  readonly caster: RayCaster
  /** What the middle of each pixel meets; null: nothing. */
  readonly hits: readonly (SeenPixel | null)[]
  readonly regions: Regions
}

export interface SeenPixel {
  readonly point: Vec3
  /** Unit, of the facet, to the camera. */
  readonly normal: Vec3
}

export const regionsOf = (rig: Rig, width: number, height: number): Regions => seenPixels(rig, width, height).regions

export function seenPixels(rig: Rig, width: number, height: number): SeenPixels {
  const meshes = rig.figures.flatMap(({ posed }) => posed.parts.map(({ mesh }) => mesh))
  const bodies: Body[] = [
    ...meshes.map((mesh) => ({ kind: 'mesh', mesh }) as const),
    ...rig.surfaces.map(({ rect, back }) => ({ kind: 'rectangle', rect, oneSided: back === null }) as const),
  ]
  const caster = createRayCaster(bodies)
  const { frame, sensorWidthMm, focalLengthMm } = rig.view
  const tangent = sensorWidthMm / (2 * focalLengthMm)
  const body = new Int32Array(width * height).fill(-1)
  const depth = new Float32Array(width * height)
  const hits: (SeenPixel | null)[] = Array(body.length).fill(null)
  for (let i = 0; i < body.length; i++) {
    const across = (1 - (2 * ((i % width) + 0.5)) / width) * tangent
    const up = (1 - (2 * (Math.floor(i / width) + 0.5)) / height) * tangent * (height / width)
    const direction = normalize(addScaled(addScaled(frame.z, frame.x, across), frame.y, up))
    const hit = caster.nearest(frame.origin, direction)
    if (!hit) continue
    hits[i] = { point: addScaled(frame.origin, direction, hit.distance), normal: hit.normal }
    body[i] = hit.bodyIndex
    depth[i] = hit.distance
  }
  const region = new Uint8Array(width * height)
  for (let i = 0; i < region.length; i++)
    if (body[i] >= 0 && !nearOutline(body, depth, i, width, height)) region[i] = body[i] < meshes.length ? FIGURE : SET
  const count = (kind: number) => region.reduce((sum, value) => sum + (value === kind ? 1 : 0), 0)
  const pixels = { figure: count(FIGURE), set: count(SET), outline: count(0) }
  return { caster, hits, regions: { region, pixels } }
}

function nearOutline(body: Int32Array, depth: Float32Array, i: number, width: number, height: number): boolean {
  const [column, row] = [i % width, Math.floor(i / width)]
  for (let y = Math.max(0, row - MARGIN_PX); y <= Math.min(height - 1, row + MARGIN_PX); y++)
    for (let x = Math.max(0, column - MARGIN_PX); x <= Math.min(width - 1, column + MARGIN_PX); x++) {
      const j = y * width + x
      if (body[j] !== body[i] || Math.abs(depth[j] - depth[i]) > STEP_M) return true
    }
  return false
}

/** Linear luminance of RGBA floats, Rec. 709 weights. */
export function luminanceOf(rgba: Float32Array): Float32Array {
  const values = new Float32Array(rgba.length / 4)
  for (let i = 0; i < values.length; i++)
    values[i] = 0.2126 * rgba[4 * i] + 0.7152 * rgba[4 * i + 1] + 0.0722 * rgba[4 * i + 2]
  return values
}

/** Share of the truth's mean over the same pixels, in per cent. */
export interface Misses {
  readonly rmse: number
  readonly bias: number
  /** Of the pixel farthest off. */
  readonly worst: number
}

/** Over the pixels of one region; null: all pixels, outlines included. */
export function missesOf(
  picture: Float32Array,
  truth: Float32Array,
  { region }: Regions,
  kinds: readonly number[] | null,
): Misses {
  let [count, sum, squares, mean, worst] = [0, 0, 0, 0, 0]
  for (let i = 0; i < truth.length; i++) {
    if (kinds && !kinds.includes(region[i])) continue
    const miss = picture[i] - truth[i]
    count++
    sum += miss
    squares += miss * miss
    mean += truth[i]
    worst = Math.max(worst, Math.abs(miss))
  }
  const percent = (100 * count) / mean
  return { rmse: Math.sqrt(squares / count) * percent, bias: (sum / count) * percent, worst: worst * percent }
}

export interface MissesByRegion {
  /** Every pixel, outlines included. */
  readonly all: Misses
  readonly inside: Misses
  readonly figure: Misses
  readonly set: Misses
}

export const missesByRegion = (picture: Float32Array, truth: Float32Array, regions: Regions): MissesByRegion => ({
  all: missesOf(picture, truth, regions, null),
  inside: missesOf(picture, truth, regions, [FIGURE, SET]),
  figure: missesOf(picture, truth, regions, [FIGURE]),
  set: missesOf(picture, truth, regions, [SET]),
})
