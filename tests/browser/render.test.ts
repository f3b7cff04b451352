import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { codeFromLinear, ditheredCode } from '../../src/camera'
import { bodiesOf } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import type { Recombination } from '../../src/render'
import { cpuDirect } from '../render/cpu-reference'
import { type RigName, rigs } from '../render/rigs'
import { floatsFromBase64, type OpenPage, openPage } from './harness'
import type { DrawOptions } from './render.page'

/**
 * The picture in software against exact rays on the CPU (cpuDirect), on every third pixel of 159 × 120. Pixels beside
 * another body are left out: there antialiasing would be compared. Figures in per cent of the mean.
 */
const SIZE = { width: 159, height: 120 }
const COARSE = { width: 53, height: 40 }

let open: OpenPage
beforeAll(async () => {
  open = await openPage('render.page.ts')
})
afterAll(() => open?.close())

const layersOf = async (options: Partial<DrawOptions> & { rig: RigName; samples: number }) => {
  const { layers } = (await open.page.evaluate(`tested.layers(${JSON.stringify({ ...SIZE, ...options })})`)) as {
    layers: string[]
  }
  return layers.map(floatsFromBase64)
}

interface Judged {
  readonly all: number
  readonly head: number
  readonly set: number
  readonly biasAll: number
  readonly biasHead: number
  readonly worst: number
}

/** References take a while: one a rig. */
const references = new Map<RigName, ReturnType<typeof reference>>()
function reference(name: RigName, samples: number) {
  const rig = rigs[name]()
  const { bodies, meanings } = bodiesOf(rig)
  const { layers, body } = cpuDirect(rig, createRayCaster(bodies), COARSE.width, COARSE.height, samples, {
    spread: false,
  })
  const inner = (x: number, y: number) => {
    if (x < 1 || y < 1 || x >= COARSE.width - 1 || y >= COARSE.height - 1) return false
    const own = body[y * COARSE.width + x]
    return (
      own >= 0 && [-1, 0, 1].every((dy) => [-1, 0, 1].every((dx) => body[(y + dy) * COARSE.width + x + dx] === own))
    )
  }
  const places = Array.from({ length: COARSE.width * COARSE.height }, (_, i) => i)
    .filter((i) => inner(i % COARSE.width, Math.floor(i / COARSE.width)))
    .map((i) => ({ i, isHead: meanings[body[i]].kind === 'figure' }))
  return { light: layers[0], places }
}
const referenceOf = (name: RigName, samples: number) => {
  const found = references.get(name) ?? reference(name, samples)
  references.set(name, found)
  return found
}

function judge(name: RigName, layer: Float32Array, referenceSamples: number): Judged {
  const { light, places } = referenceOf(name, referenceSamples)
  const mean = places.reduce((sum, { i }) => sum + light[3 * i], 0) / places.length
  const errors = places.map(({ i, isHead }) => {
    const x = 3 * (i % COARSE.width) + 1
    // The reference's rows run from the bottom, the picture's from the top.
    const y = SIZE.height - 1 - (3 * Math.floor(i / COARSE.width) + 1)
    return { isHead, error: (100 * (layer[4 * (y * SIZE.width + x)] - light[3 * i])) / mean }
  })
  const root = (list: typeof errors) => Math.sqrt(list.reduce((sum, { error }) => sum + error * error, 0) / list.length)
  const bias = (list: typeof errors) => list.reduce((sum, { error }) => sum + error, 0) / list.length
  const head = errors.filter(({ isHead }) => isHead)
  expect(head.length).toBeGreaterThan(60)
  return {
    all: root(errors),
    head: root(head),
    set: root(errors.filter(({ isHead }) => !isHead)),
    biasAll: bias(errors),
    biasHead: bias(head),
    worst: Math.max(...errors.map(({ error }) => Math.abs(error))),
  }
}

test('this browser can draw the picture', async () => {
  expect(await open.page.evaluate('tested.support()')).toBeNull()
})

/** One of sixteen samples that is hidden or seen by itself: its ghost. */
const GHOST = 100 / 16

/**
 * Bars in per cent of the mean: RMSE over all pixels, the head and, in the first frame, the set; mean error of the first
 * two; in the first frame the worst pixel, since ghost silhouettes hide in an RMSE. Measured in the comments, in that order.
 * render.md asks for a mean error of at most 0.3 of all and 0.5 of the head in a picture of many samples (it was found at 8192):
 * met from 64 on. The first frame's is that of a face that stands for sixteen patches, and its bar is its RMSE.
 * The reference's own noise is in the figures: 512 rays a pixel, about 0.15.
 */
const BARS = [
  { rig: 'hard', samples: 16, rays: 64, all: 0.5, head: 1, set: 1, biasAll: 0.1, biasHead: 0.3, worst: 12 }, // 0.21, 0.66, 0.05, 0.02, 0.06, worst 9.5
  { rig: 'hard', samples: 64, rays: 64, all: 0.35, head: 0.8, set: 0, biasAll: 0.1, biasHead: 0.3, worst: 0 }, // 0.18, 0.58, 0.02, 0.07
  { rig: 'disc', samples: 16, rays: 512, all: 4, head: 1.5, set: 1, biasAll: 0.7, biasHead: 0.9, worst: GHOST }, // 0.92, 1.4, 0.86, 0.54, 0.81, worst 4.1
  { rig: 'disc', samples: 64, rays: 512, all: 1.3, head: 0.6, set: 0, biasAll: 0.3, biasHead: 0.4, worst: 0 }, // 0.47, 0.49, 0.15, 0.35
  { rig: 'disc', samples: 256, rays: 512, all: 0.4, head: 0.5, set: 0, biasAll: 0.1, biasHead: 0.3, worst: 0 }, // 0.26, 0.32, 0.04, 0.07
  { rig: 'rect', samples: 16, rays: 512, all: 4, head: 1.5, set: 1, biasAll: 0.7, biasHead: 0.8, worst: GHOST }, // 0.87, 0.82, 0.88, 0.44, 0.42, worst 4.9
  { rig: 'rect', samples: 64, rays: 512, all: 1.3, head: 0.6, set: 0, biasAll: 0.3, biasHead: 0.3, worst: 0 }, // 0.51, 0.42, 0.17, 0.14
  { rig: 'rect', samples: 256, rays: 512, all: 0.4, head: 0.5, set: 0, biasAll: 0.1, biasHead: 0.3, worst: 0 }, // 0.25, 0.28, 0.04, 0.02
  { rig: 'gridded', samples: 16, rays: 256, all: 5, head: 3.5, set: 0, biasAll: 0.7, biasHead: 0.8, worst: 0 }, // 3.3, 2.2, 0.38, 0.40
  { rig: 'gridded', samples: 256, rays: 256, all: 0.8, head: 0.6, set: 0, biasAll: 0.15, biasHead: 0.15, worst: 0 }, // 0.46, 0.29, 0.01, 0.11
  // A lamp's own body leaves some 2 % of noise on the head in 512 rays.
  { rig: 'umbrella', samples: 16, rays: 512, all: 4, head: 9, set: 0, biasAll: 2.5, biasHead: 3.5, worst: 0 }, // 3.4, 7.2, 1.7, 2.2
  { rig: 'umbrella', samples: 64, rays: 512, all: 1.8, head: 4, set: 0, biasAll: 0.3, biasHead: 1.6, worst: 0 }, // 1.4, 3.3, 0.00, 1.1
] as const

/** Each rig is drawn once, and looked at wherever a bar stands. */
const drawn = new Map<RigName, Map<number, Float32Array>>()
async function layerAt(rig: RigName, samples: number): Promise<Float32Array> {
  if (!drawn.has(rig)) {
    const counts = BARS.filter((bar) => bar.rig === rig).map((bar) => bar.samples)
    const order = JSON.stringify({ ...SIZE, rig, samples: counts, antialias: false })
    const layers = (await open.page.evaluate(`tested.stages(${order})`)) as string[]
    drawn.set(rig, new Map(counts.map((count, i) => [count, floatsFromBase64(layers[i])])))
  }
  return drawn.get(rig)!.get(samples)!
}

/** Grids and umbrellas, whose references take a minute: AGREEMENT=all. The meter judges an umbrella's light in the usual run too. */
const USUAL = BARS.filter(({ rig }) => process.env.AGREEMENT === 'all' || (rig !== 'gridded' && rig !== 'umbrella'))

describe('direct light against exact rays', () => {
  test.each(USUAL)(
    '$rig, $samples samples',
    async ({ rig, samples, rays, all, head, set, biasAll, biasHead, worst }) => {
      const judged = judge(rig, await layerAt(rig, samples), rays)
      expect(judged.all).toBeLessThan(all)
      expect(judged.head).toBeLessThan(head)
      if (set) expect(judged.set).toBeLessThan(set)
      if (worst) expect(judged.worst).toBeLessThan(worst)
      expect(Math.abs(judged.biasAll)).toBeLessThan(biasAll)
      expect(Math.abs(judged.biasHead)).toBeLessThan(biasHead)
    },
  )
})

test('the error that a picture tells of itself is the one it has, or more', async () => {
  // From what more samples change; held against a long picture of another seed.
  const order = { ...COARSE, rig: 'umbrella' as const, samples: [16, 32, 128] }
  const told = (await open.page.evaluate(`tested.errors(${JSON.stringify(order)})`)) as {
    error: number | null
    layer: string
  }[]
  const [truth] = await layersOf({ ...COARSE, rig: 'umbrella', samples: 512, seed: 7919 })
  const mean = truth.reduce((sum, value, i) => sum + (i % 4 === 1 ? value : 0), 0) / (truth.length / 4)
  const errors = told.map(({ error, layer }) => {
    const values = floatsFromBase64(layer)
    const squares = values.reduce((sum, value, i) => sum + (i % 4 === 1 ? (value - truth[i]) ** 2 : 0), 0)
    return { told: error, real: Math.sqrt(squares / (truth.length / 4)) / mean }
  })
  expect(errors[0].told).toBeNull()
  for (const { told: error, real } of errors.slice(1)) {
    expect(error!).toBeGreaterThan(0.75 * real)
    expect(error!).toBeLessThan(3 * real)
  }
  expect(errors[2].real).toBeLessThan(errors[1].real)
})

test('samples begun at once, behind a fence and step by step are the same picture', async () => {
  const moved = (await open.page.evaluate(
    `tested.movedThreeWays(${JSON.stringify({ width: 40, height: 30 })}, 'disc', 'discMirrored')`,
  )) as { layer: string; begun: boolean; steps: number }[]
  const [begun, patient, stepped] = moved
  expect([begun.begun, patient.begun, stepped.begun]).toEqual([true, false, false])
  expect(begun.steps).toBe(1)
  expect(begun.layer).toBe(stepped.layer)
  expect(patient.layer).toBe(stepped.layer)
})

test('layers are summed from target to target, without float blending, which some devices lack', async () => {
  const blended = await open.page.evaluate(`(async () => {
    const { prototype } = WebGL2RenderingContext
    const { enable } = prototype
    let asked = 0
    prototype.enable = function (what) {
      if (what === this.BLEND) asked++
      return enable.call(this, what)
    }
    try {
      await tested.layers(${JSON.stringify({ width: 40, height: 30, rig: 'two', samples: 32 })})
      return asked
    } finally {
      prototype.enable = enable
    }
  })()`)
  expect(blended).toBe(0)
})

test('a mirrored set gives the mirrored picture, outlines included', async () => {
  // A finished picture: its 64 looks are spread over the pixel in a pattern that is not mirrored, and with half of them
  // the outlines alone still differ by 0.66 %.
  const options = { width: 84, height: 63, samples: 1024, tileSize: 256 }
  const [[one], [other]] = [
    await layersOf({ rig: 'coarse', ...options }),
    await layersOf({ rig: 'coarseMirrored', ...options, seed: 7 }),
  ]
  const { width, height } = options
  const at = (layer: Float32Array, x: number, y: number) => layer[4 * (y * width + x)]
  let sum = 0
  let squares = 0
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      sum += at(one, x, y)
      squares += (at(one, x, y) - at(other, width - 1 - x, y)) ** 2
    }
  const rmse = Math.sqrt(squares / (width * height)) / (sum / (width * height))
  // Measured 0.0028.
  expect(rmse).toBeLessThan(0.004)
})

/** One picture, weighed in several ways. */
const draw = async (
  options: Partial<DrawOptions> & { rig: RigName; samples: number },
  hows: readonly Recombination[],
) => {
  const order = JSON.stringify({ ...SIZE, ...options })
  const read = (await open.page.evaluate(`tested.pictures(${order}, ${JSON.stringify(hows)})`)) as {
    linear: string
    display: string
  }[]
  return read.map(({ linear, display }) => ({
    linear: floatsFromBase64(linear),
    display: Buffer.from(display, 'base64'),
  }))
}
const weighing = (factorA: number, factorB: number, onB = true): Recombination => ({
  weights: [
    { sourceId: 'A', on: true, factor: factorA, rgb: [1.1, 0.97, 1] },
    { sourceId: 'B', on: onB, factor: factorB, rgb: [1, 1, 1] },
  ],
  exposure: 2,
  mode: 'plain',
})

test('half power is half the light, a source switched off gives none, sources add, and where the shutter hides flash only the steady one is left', async () => {
  // The lower quarter is dark to A, a flash; B burns on.
  const [flash, steady] = weighing(1, 1).weights
  const banded: Recombination = {
    ...weighing(1, 1),
    weights: [flash, { ...steady, burnsOn: true }],
    dark: [0, -1, -0.5],
  }
  const ways = [weighing(1, 1), weighing(0.5, 0.5), weighing(1, 1, false), weighing(0, 1), banded]
  const drawn = await draw({ rig: 'two', samples: 16 }, ways)
  const [both, half, a, b, band] = drawn.map(({ linear }) => linear.filter((_, i) => i % 4 < 3))
  band.forEach((value, i) => {
    const isDark = Math.floor(i / (3 * SIZE.width)) >= 0.75 * SIZE.height
    if (Math.abs(value - (isDark ? b : both)[i]) > 1e-6) throw new Error(`band: ${value} at ${i}`)
  })
  let worst = 0
  both.forEach((value, i) => {
    worst = Math.max(worst, Math.abs(half[i] / value - 0.5), Math.abs((a[i] + b[i]) / value - 1))
  })
  expect(worst).toBeLessThan(1e-6)
})

/**
 * The edge of a card 1.5 m off, by a lens of 90 mm at f/1 on 36 mm: an edge under a disc of diameter d falls as the disc's segment,
 * (acos t − t·√(1 − t²))/π at t radii (closed form); d = f²/(N(s − f))·|u − s|/u on the sensor [Ray02].
 */
test('what is out of focus is spread as its blur circle says: before, in and behind the focus', async () => {
  const focused = [0.9, 1.2, 1.5, 2.2]
  const onSensorMm = (s: number) => 90 ** 2 / (1000 * s - 90)
  const how: Recombination = {
    weights: [{ sourceId: 'A', on: true, factor: 3, rgb: [1, 1, 1] }],
    exposure: 1,
    mode: 'plain',
  }
  const blurred = focused.map((focusM) => ({ ...how, blur: { focusM, farShare: onSensorMm(focusM) / 36 } }))
  // With the left quarter hidden by the shutter as well: its border is on the sensor, and stays sharp.
  const banded: Recombination = { ...blurred[0], dark: [-1, 0, -0.5] }
  const hows = [how, banded, ...blurred]
  const [sharp, halved, ...soft] = (await draw({ rig: 'card', samples: 16, antialias: false }, hows)).map(
    ({ linear }) => linear,
  )
  const middle = Math.floor(SIZE.height / 2)
  const row = (picture: Float32Array) =>
    Array.from({ length: SIZE.width }, (_, x) => picture[4 * (middle * SIZE.width + x)])
  const whole = row(sharp)
  const edge = whole.indexOf(0)
  // x < −0.5, a quarter of the frame.
  const border = Math.round(SIZE.width / 4)
  row(halved).forEach((value, x) => {
    expect(value).toBe(x < border ? 0 : row(soft[0])[x])
  })
  soft.forEach((picture, i) => {
    const radiusPx = ((onSensorMm(focused[i]) * Math.abs(1.5 - focused[i])) / 1.5 / 36) * (SIZE.width / 2)
    const values = row(picture)
    for (let x = edge - 14; x < edge + 14; x++) {
      const t = Math.max(-1, Math.min(1, (x + 0.5 - edge) / Math.max(0.5, radiusPx)))
      const segment = (Math.acos(t) - t * Math.sqrt(1 - t * t)) / Math.PI
      expect(Math.abs(values[x] / whole[edge - 1] - segment)).toBeLessThan(0.07)
    }
  })
})

test('furnace: in a box of equal light a white convex body vanishes', async () => {
  const [layer] = await layersOf({ rig: 'furnace', samples: 512, width: 72, height: 54 })
  const head: number[] = []
  for (let i = 0; i < layer.length; i += 4) {
    expect(Number.isFinite(layer[i])).toBe(true)
    if (layer[i] !== 1) head.push(layer[i])
  }
  expect(head.length).toBeGreaterThan(450)
  const mean = head.reduce((sum, value) => sum + value, 0) / head.length
  const rms = Math.sqrt(head.reduce((sum, value) => sum + (value - 1) ** 2, 0) / head.length)
  // Facets of a 96 × 72 egg cut light off near their horizon where the smooth normal still sees it.
  expect(Math.abs(mean - 1)).toBeLessThan(0.005)
  expect(rms).toBeLessThan(0.015)
})

test('furnace of bounce: irradiance π everywhere gives white surfaces the value 1', async () => {
  const layer = floatsFromBase64((await open.page.evaluate(`tested.bounced(${JSON.stringify(SIZE)})`)) as string)
  let worst = 0
  for (let i = 0; i < layer.length; i += 4)
    for (const band of [0, 1, 2]) worst = Math.max(worst, Math.abs(layer[i + band] - 1))
  expect(worst).toBeLessThan(0.002)
})

test.each(['hard', 'disc', 'two', 'solids', 'empty'] as const)('%s: no pixel without a finite value', async (rig) => {
  for (const layer of await layersOf({ rig, samples: 16, width: 80, height: 60 }))
    expect(layer.every(Number.isFinite)).toBe(true)
})

test('probes: a disc before a parallel and a tilted receiver', async () => {
  // Disc of radius R and luminance L on the axis at d: E = πL·R²/(R² + d²), times cos of the tilt while no part of the
  // disc sinks below the receiver's horizon (Howell, radiation configuration factors, B-12 and B-13).
  const source = [0.7, 1.75, 0.75] as const
  const aim = [0, 1.25, 0] as const
  const d = Math.hypot(...source.map((value, i) => value - aim[i]))
  const towards = source.map((value, i) => (value - aim[i]) / d)
  const side = [-towards[2], 0, towards[0]].map((value) => value / Math.hypot(towards[0], towards[2]))
  const tilted = towards.map((value, i) => value * Math.cos(0.5) + side[i] * Math.sin(0.5))
  const probes = [towards, tilted].map((normal) => ({ position: aim, normal }))
  const order = JSON.stringify({ rig: 'bare', width: 16, height: 16, samples: 256 })
  const [text] = (await open.page.evaluate(`tested.probes(${order}, ${JSON.stringify(probes)})`)) as string[]
  const irradiance = floatsFromBase64(text)
  const truth = (Math.PI * 0.25) / (0.25 + d * d)
  expect(Math.abs(irradiance[0] / truth - 1)).toBeLessThan(0.001)
  expect(Math.abs(irradiance[3] / (truth * Math.cos(0.5)) - 1)).toBeLessThan(0.001)
})

test('display bytes are the camera’s transform of the linear values', async () => {
  const weights = [{ sourceId: 'A', on: true, factor: 1, rgb: [1.2, 0.95, 0.8] as const }]
  const modes = ['plain', 'shoulder'] as const
  const drawn = await draw(
    { rig: 'disc', samples: 16 },
    modes.map((mode) => ({ weights, exposure: 14, mode })),
  )
  for (const [m, mode] of modes.entries()) {
    const { linear: values, display: bytes } = drawn[m]
    let [worst, sum] = [0, 0]
    for (let i = 0; i < bytes.length / 3; i++)
      for (const band of [0, 1, 2]) {
        const code = codeFromLinear(values[4 * i + band], mode)
        const fromBelow = SIZE.height - 1 - Math.floor(i / SIZE.width)
        worst = Math.max(worst, Math.abs(ditheredCode(code, i % SIZE.width, fromBelow, band) - bytes[3 * i + band]))
        sum += code - bytes[3 * i + band]
      }
    // Half a code is rounding, the rest a card's powers; and in the mean nothing is added.
    expect(worst).toBeLessThanOrEqual(0.6)
    expect(Math.abs(sum / bytes.length)).toBeLessThan(0.02)
  }
})
