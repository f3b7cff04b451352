import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { pixelFromLinear } from '../../src/camera'
import { bodiesOf } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
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
    biasAll: bias(errors),
    biasHead: bias(head),
    worst: Math.max(...errors.map(({ error }) => Math.abs(error))),
  }
}

test('this browser can draw the picture', async () => {
  expect(await open.page.evaluate('tested.support()')).toBeNull()
})

describe('direct light against exact rays', () => {
  test.each([
    ['hard', 16, 64],
    ['disc', 16, 512],
    ['disc', 64, 512],
    ['rect', 16, 512],
    ['rect', 64, 512],
    ['rect', 256, 512],
    ['rect', 1024, 512],
  ] as const)('%s, %i samples', async (rig, samples, referenceSamples) => {
    const [layer] = await layersOf({ rig, samples, antialias: false })
    const judged = judge(rig, layer, referenceSamples)
    console.log(
      rig,
      samples,
      JSON.stringify(judged, (_, v) => (typeof v === 'number' ? +v.toFixed(3) : v)),
    )
  })
})

test('display bytes are the camera’s transform of the linear values', async () => {
  const weights = [{ sourceId: 'A', on: true, factor: 1, rgb: [1.2, 0.95, 0.8] }]
  for (const mode of ['plain', 'shoulder'] as const) {
    const how = JSON.stringify({ weights, exposure: 14, mode })
    const options = JSON.stringify({ ...SIZE, rig: 'disc', samples: 16 })
    const { linear, display } = (await open.page.evaluate(`tested.picture(${options}, ${how})`)) as Record<
      string,
      string
    >
    const values = floatsFromBase64(linear)
    const bytes = Buffer.from(display, 'base64')
    let worst = 0
    for (let i = 0; i < bytes.length / 3; i++) {
      const pixel = pixelFromLinear([values[4 * i], values[4 * i + 1], values[4 * i + 2]], mode)
      for (const band of [0, 1, 2]) worst = Math.max(worst, Math.abs(pixel[band] - bytes[3 * i + band]))
    }
    expect(worst).toBeLessThanOrEqual(1)
  }
})
