/** Plain pixels against the meter: what a pixel's middle sees by ray, and the light that the meter finds there. */
import { directionThrough, projectToFrame } from '../../src/camera'
import { type MeterScene, materialAt } from '../../src/meter'
import { luminanceFromSrgb, luminousExposureFromFNumber, type Rgb } from '../../src/photometry'
import type { Probe } from '../../src/render'
import { capSphere } from '../../src/rig'
import { readSitting, type Sitting } from '../../src/sitting'
import { addScaled, dot, normalize, subtract, type Vec3 } from '../../src/space'
import { byMeter, type Light, meanOf, meterScene, pixelsOf, rigOfText, sent } from './agreement-routes'
import type { OpenPage } from './harness'

const WIDTH = 160
const F_NUMBER = 8
/** Off the surface, past the facets that the meter's caster knows round things by. */
const LIFT_M = 2e-3

export interface Look {
  readonly name: string
  /** World place that the pixel is to show. */
  readonly at: Vec3
}

export interface PixelRow {
  readonly name: string
  readonly met: string
  readonly stops: number
  readonly directShare: number
  readonly probe: Probe
  readonly light: Light
}

/** Of each look: stops by which the pixel is brighter than reflectance × the meter's light at the place that it shows. */
export async function comparedPixels(
  open: OpenPage,
  sitting: Sitting,
  looks: readonly Look[],
  { samples, paths, width = WIDTH }: { readonly samples: number; readonly paths: number; readonly width?: number },
): Promise<readonly PixelRow[]> {
  const sittingText = JSON.stringify(sitting)
  const read = readSitting(sittingText)
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  const { camera } = sitting
  const size = { width, height: (width * camera.sensorHeightMm) / camera.sensorWidthMm }
  const rig = rigOfText(sittingText)
  const scene = meterScene(rig)
  const drawing = pixelsOf(open, { set: { sittingText }, ...size, samples, bounce: {}, fNumber: F_NUMBER })
  await sent()
  const full = luminousExposureFromFNumber(F_NUMBER, camera.iso)
  const { frame } = rig.view
  const seen = looks.map(({ name, at }) => {
    const place = projectToFrame(at, frame, camera)
    if (!place || Math.abs(place.x) > 1 || Math.abs(place.y) > 1) throw new Error(`${name}: out of the frame`)
    const column = Math.floor((0.5 + place.x / 2) * size.width)
    const row = Math.floor((0.5 - place.y / 2) * size.height)
    const through = (c: number, r: number) =>
      directionThrough((2 * c) / size.width - 1, 1 - (2 * r) / size.height, frame, camera)
    const spot = byRay(scene, frame.origin, through(column + 0.5, row + 0.5))
    const corners = [0, 1].flatMap((x) => [0, 1].map((y) => byRay(scene, frame.origin, through(column + x, row + y))))
    if (corners.some(({ body }) => body !== spot.body)) throw new Error(`${name}: on the edge of a thing`)
    // The picture's value is the mean over the pixel: so is the meter's, over its corners and twice its middle.
    const lights = [...corners, spot, spot].map(({ probe }) => byMeter(scene, probe, paths / 6))
    return { name, index: row * size.width + column, ...spot, light: meanOf(lights) }
  })
  const { linear } = await drawing
  return seen.map(({ name, index, met, probe, albedo, light }) => {
    const value = luminanceFromSrgb([0, 1, 2].map((band) => linear[4 * index + band]) as unknown as Rgb)
    const total = light.direct + light.bounced
    return {
      name,
      met,
      stops: Math.log2(value / ((albedo * total) / full)),
      directShare: light.direct / total,
      probe,
      light,
    }
  })
}

interface Spot {
  readonly body: number
  readonly met: string
  readonly probe: Probe
  readonly albedo: number
}

function byRay(scene: MeterScene, eye: Vec3, direction: Vec3): Spot {
  const hit = scene.caster.nearest(eye, direction)
  if (!hit) throw new Error('a pixel that sees nothing')
  const meaning = scene.bodies.meanings[hit.bodyIndex]
  const material = materialAt(meaning, hit, direction)
  if (material?.kind !== 'matt') throw new Error(`a pixel that sees no matt thing, but ${meaning.kind}`)
  const point = addScaled(eye, direction, hit.distance)
  const round = roundNormal(meaning, point, hit.normal)
  const normal = round && dot(round, direction) > 0 ? (round.map((x) => -x) as unknown as Vec3) : (round ?? hit.normal)
  return {
    body: hit.bodyIndex,
    met: meaning.kind,
    probe: { position: addScaled(point, normal, LIFT_M), normal },
    albedo: luminanceFromSrgb(material.albedo),
  }
}

type Meaning = MeterScene['bodies']['meanings'][number]

/** A round thing's own normal, which its facets only stand for. */
function roundNormal(meaning: Meaning, point: Vec3, own: Vec3): Vec3 | null {
  if (meaning.kind === 'ball') return normalize(subtract(point, meaning.ball.centre))
  if (meaning.kind !== 'gear') return null
  const { solid } = meaning
  if (solid.kind === 'cap') return normalize(subtract(point, capSphere(solid).centre))
  if (solid.kind !== 'cylinder') return null
  const axis = normalize(subtract(solid.to, solid.from))
  const from = subtract(point, solid.from)
  return Math.abs(dot(own, axis)) > 0.5 ? null : normalize(addScaled(from, axis, -dot(from, axis)))
}
