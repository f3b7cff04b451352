import { expect, test } from 'vitest'
import { directionThrough, pixelFromLinear, projectToFrame } from '../../src/camera'
import { fNumberFromLuminousExposure, luminanceFromSrgb, type Rgb } from '../../src/photometry'
import type { Sitting } from '../../src/sitting'
import { addScaled, cross, dot, frameTowards, normalize, subtract, type Vec3 } from '../../src/space'
import { agreementPage, scene, TIMEOUT_MS } from './agreement-bench'
import { byMeter, type Light, meterScene, pixelsOf, rigOfText, sent } from './agreement-routes'

/**
 * The grey card: L = ρE/π and N² = H·S/C give a picture value of ρ·H/H₀ where H₀ is the reading that set the exposure
 * (ISO 2720; physics.md, section 8). Two cards of 18 % beside the face: one squared to the key, one to the lens.
 */
const RHO = 0.18
const SIZE = { width: 120, height: 180 }
/** physics.md, section 11: where direct light is 80 % or more, and elsewhere. */
const STOPS = { direct: 0.02, mixed: 0.06 }
const DIRECT_SHARE = 0.8
const PATHS = 4096

const open = agreementPage()

const key: Vec3 = [0.804, 1.89, 0.619]
const toKey: Vec3 = [0.25, 1.16, 0.12]

function cardFacing(id: string, centreM: Vec3, at: Vec3) {
  const [x, y, z] = normalize(subtract(at, centreM))
  const degrees = 180 / Math.PI
  const turnDeg = Math.atan2(x, z) * degrees
  return {
    id,
    kind: 'card',
    centreM,
    widthM: 0.16,
    heightM: 0.16,
    turnDeg,
    tiltDeg: Math.asin(y) * degrees,
    reflectance: RHO,
  } as const
}

const sitting = scene('broad-against-short')
const camera = { ...sitting.camera, focalLengthMm: 60 }
const lit: Sitting = {
  ...sitting,
  takes: [],
  camera,
  objects: [cardFacing('to-key', toKey, key), cardFacing('to-lens', [0.26, 0.95, 0.1], camera.positionM)],
}

/** Pixels whose whole square falls on the card, with the point of the card behind the pixel's middle. */
function pixelsOn({ centre, halfU, halfV }: { centre: Vec3; halfU: Vec3; halfV: Vec3 }) {
  const frame = frameTowards(camera.positionM, camera.aimM)
  const normal = normalize(cross(halfU, halfV))
  const cornerOn = (column: number, row: number): Vec3 | null => {
    const direction = directionThrough((2 * column) / SIZE.width - 1, 1 - (2 * row) / SIZE.height, frame, camera)
    const t = dot(subtract(centre, frame.origin), normal) / dot(direction, normal)
    const point = addScaled(frame.origin, direction, t)
    const from = subtract(point, centre)
    const isOn = [halfU, halfV].every((half) => Math.abs(dot(from, half)) < dot(half, half))
    return isOn ? point : null
  }
  const found: { readonly index: number; readonly point: Vec3 }[] = []
  for (let row = 0; row < SIZE.height; row++)
    for (let column = 0; column < SIZE.width; column++) {
      const corners = [0, 1].flatMap((y) => [0, 1].map((x) => cornerOn(column + x, row + y)))
      const point = cornerOn(column + 0.5, row + 0.5)
      if (point && corners.every((corner) => corner)) found.push({ index: row * SIZE.width + column, point })
    }
  return { pixels: found, normal, centreInFrame: projectToFrame(centre, frame, camera) }
}

const total = ({ direct, bounced }: Light) => direct + bounced

test(
  'two grey cards beside the face: pixels = 0.18 × the card’s reading over the reading that set the exposure',
  async () => {
    const sittingText = JSON.stringify(lit)
    const rig = rigOfText(sittingText)
    const metered = meterScene(rig)
    const cards = rig.surfaces
      .filter(({ kind }) => kind === 'card')
      .map(({ id, rect }) => ({ id, rect, ...pixelsOn(rect) }))
    expect(cards.map(({ id }) => id)).toEqual(['to-key', 'to-lens'])
    const meter = (point: Vec3, normal: Vec3) =>
      byMeter(metered, { position: addScaled(point, normal, 5e-4), normal }, PATHS)
    const [facing] = cards
    const reference = total(meter(facing.rect.centre, facing.normal))
    const fNumber = fNumberFromLuminousExposure(reference, rig.view.iso)
    const drawing = pixelsOf(open, { set: { sittingText }, ...SIZE, samples: 64, bounce: {}, fNumber })
    await sent()
    const readings = cards.map(({ pixels, normal }) => {
      expect(pixels.length).toBeGreaterThan(12)
      const chosen = pixels.filter((_, i) => i % Math.ceil(pixels.length / 9) === 0)
      return chosen.map(({ index, point }) => ({ index, light: meter(point, normal) }))
    })
    const { linear, display } = await drawing
    for (const [i, { id, pixels }] of cards.entries()) {
      const off = readings[i].map(({ index, light }) => {
        const value = luminanceFromSrgb([0, 1, 2].map((band) => linear[4 * index + band]) as unknown as Rgb)
        return Math.log2(value / ((RHO * total(light)) / reference))
      })
      const worst = Math.max(...off.map(Math.abs))
      const isDirect = readings[i].every(({ light }) => light.direct >= DIRECT_SHARE * total(light))
      console.log(
        `${id}: ${pixels.length} pixels, worst of ${off.length} ${worst.toFixed(4)} stop, direct: ${isDirect}`,
      )
      expect(worst).toBeLessThan(isDirect ? STOPS.direct : STOPS.mixed)
    }
    expect(readings[0].every(({ light }) => light.direct >= DIRECT_SHARE * total(light))).toBe(true)
    const middle = facing.pixels[Math.floor(facing.pixels.length / 2)].index
    const grey = pixelFromLinear([RHO, RHO, RHO], 'plain')
    expect(grey).toEqual([118, 118, 118])
    for (const band of [0, 1, 2]) expect(Math.abs(display[3 * middle + band] - 118)).toBeLessThanOrEqual(1)
  },
  TIMEOUT_MS,
)
