import { expect, test } from 'vitest'
import { directionThrough } from '../../src/camera'
import { CORNEA_CENTRE_MM, CORNEA_RADIUS_MM } from '../../src/figure'
import { defaultModifier, type Modifier } from '../../src/gear'
import { luminanceFromSrgb, type Rgb } from '../../src/photometry'
import type { Rig, RigSource } from '../../src/rig'
import { setGaze } from '../../src/sitting'
import { addScaled, directionToLocal, dot, normalize, pointToLocal, scale, subtract, type Vec3 } from '../../src/space'
import { EYE_M, lamp, setOf } from '../readings/set'
import { agreementPage, TIMEOUT_MS } from './agreement-bench'
import { meterScene, pixelsOf, rigOfText } from './agreement-routes'

/**
 * A catchlight has the shape of its source. Each pixel of a close picture of an eye is mirrored here in the ball of the cornea (law of
 * reflection) and followed to the plane of the lit face, whose shape is written anew below; the picture must be bright
 * where that meets it and nowhere else.
 */
const SIZE = 96
/** Across the picture, m. */
const FIELD = 0.009
const LENS: Vec3 = [0, EYE_M, 2.2]
const [FOCAL_MM, SENSOR_MM] = [1000, (FIELD / 2.2) * 1000]
const open = agreementPage()

type Inside = (x: number, y: number) => boolean
const rectangle: Inside = (x, y) => Math.abs(x) < 0.3 && Math.abs(y) < 0.45
const octagon: Inside = (x, y) => Math.max(Math.abs(x), Math.abs(y), (Math.abs(x) + Math.abs(y)) / Math.SQRT2) < 0.45
const round: Inside = (x, y) => Math.hypot(x, y) < 0.475

function sittingOf(modifier: Modifier) {
  const base = setOf([lamp('A', { az: 25, el: 20, d: 1.2, modifier })])
  const set = setGaze(
    { ...base, camera: { ...base.camera, positionM: LENS, aimM: [0, EYE_M, 0], focalLengthMm: FOCAL_MM } },
    'sitter',
    'camera',
  )
  const { pupilLeft } = rigOfText(JSON.stringify(set)).figures[0]!.posed.landmarks
  const camera = { ...set.camera, aimM: pupilLeft.position, sensorWidthMm: SENSOR_MM, sensorHeightMm: SENSOR_MM }
  return { ...set, camera }
}

/** Where the look through a pixel goes once it is mirrored in the cornea; null: it misses the ball. */
function mirrored(
  { view, figures }: Rig,
  i: number,
): { readonly from: Vec3; readonly seen: Vec3; readonly way: Vec3; readonly offMm: number } | null {
  const { eyeCentreLeft, pupilLeft } = figures[0]!.posed.landmarks
  const sight = normalize(subtract(pupilLeft.position, eyeCentreLeft.position))
  const centre = addScaled(eyeCentreLeft.position, sight, CORNEA_CENTRE_MM / 1000)
  const [column, row] = [i % SIZE, Math.floor(i / SIZE)]
  const way = directionThrough((2 * (column + 0.5)) / SIZE - 1, 1 - (2 * (row + 0.5)) / SIZE, view.frame, view)
  const start = subtract(view.frame.origin, centre)
  const along = dot(start, way)
  const root = along * along - dot(start, start) + (CORNEA_RADIUS_MM / 1000) ** 2
  if (root < 0) return null
  const from = addScaled(view.frame.origin, way, -along - Math.sqrt(root))
  const normal = scale(subtract(from, centre), 1000 / CORNEA_RADIUS_MM)
  const offMm = 1000 * Math.sqrt(Math.max(0, dot(start, start) - along * along))
  return { from, seen: way, way: addScaled(way, normal, -2 * dot(way, normal)), offMm }
}

/** On the plane of the lit face, m. */
function meets({ frame }: RigSource, from: Vec3, way: Vec3): readonly [number, number] | null {
  const [p, d] = [pointToLocal(frame, from), directionToLocal(frame, way)]
  return d[2] < 0 ? [p[0] - (d[0] * p[2]) / d[2], p[1] - (d[1] * p[2]) / d[2]] : null
}

test.each<readonly [string, Modifier, Inside]>([
  ['a rectangle', { ...defaultModifier('softbox'), widthM: 0.6, heightM: 0.9 }, rectangle],
  ['an octagon', { ...defaultModifier('octa'), diameterM: 0.9 }, octagon],
  ['round, with the lamp dark in its middle', { ...defaultModifier('white-umbrella'), diameterM: 0.95 }, round],
])(
  '%s',
  async (_, modifier, inside) => {
    const sittingText = JSON.stringify(sittingOf(modifier))
    const rig = rigOfText(sittingText)
    const order = { set: { sittingText }, width: SIZE, height: SIZE, samples: 16, bounce: null, fNumber: 5.6 }
    const { linear } = await pixelsOf(open, order)
    const value = (i: number) => luminanceFromSrgb([0, 1, 2].map((band) => linear[4 * i + band]) as unknown as Rgb)
    const { caster, bodies } = meterScene(rig)
    const isEye = (way: Vec3) => {
      const met = bodies.meanings[caster.nearest(rig.view.frame.origin, way)!.bodyIndex]
      return met?.kind === 'figure' && met.part.name === 'eyeLeft'
    }
    const [lit, dark, middle]: [number[], number[], number[]] = [[], [], []]
    for (let i = 0; i < SIZE * SIZE; i++) {
      const look = mirrored(rig, i)
      // Well within the iris, where the ball is the cornea's and the ground dark, and what the lids leave of it.
      if (!look || look.offMm > 4.2 || !isEye(look.seen)) continue
      const place = meets(rig.sources[0]!, look.from, look.way)
      const isIn = (grown: number) => place !== null && inside(place[0] / grown, place[1] / grown)
      const isLamp = modifier.kind === 'white-umbrella' && place !== null && Math.hypot(...place) < 0.3
      if (isLamp) middle.push(value(i))
      else if (isIn(0.94)) lit.push(value(i))
      else if (!isIn(1.06)) dark.push(value(i))
    }
    const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length
    const half = (mean(lit) + mean(dark)) / 2
    expect(lit.length).toBeGreaterThan(250)
    expect(dark.length).toBeGreaterThan(2000)
    expect(mean(lit)).toBeGreaterThan(2 * mean(dark))
    const wrong = lit.filter((v) => v < half).length + dark.filter((v) => v > half).length
    expect(wrong / (lit.length + dark.length)).toBeLessThan(0.01)
    // Of the part round the axis some is lamp and dark, and some is cloth.
    if (middle.length > 0) {
      expect(middle.filter((v) => v < half).length).toBeGreaterThan(0.1 * middle.length)
      expect(middle.filter((v) => v > half).length).toBeGreaterThan(0.2 * middle.length)
    }
  },
  TIMEOUT_MS,
)
