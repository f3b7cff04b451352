/** In the browser: draws the hand-made rigs of tests/render/rigs.ts and hands back floats as base64. */
import { describeSupport, PictureRenderer, type Probe, type Recombination } from '../../src/render'
import { evenBounce, type RigName, rigs } from '../render/rigs'

export interface DrawOptions {
  readonly rig: RigName
  readonly width: number
  readonly height: number
  readonly samples: number
  readonly seed?: number
  readonly tileSize?: number
  readonly antialias?: boolean
}

const base64 = (values: ArrayBufferView): string => {
  const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength)
  let text = ''
  for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000))
  return btoa(text)
}

let first: PictureRenderer | null = null

/** Kept, so that its context and the programs it has compiled, for first and for later batches, serve all others. */
function firstRenderer(): PictureRenderer {
  const renderer = new PictureRenderer({ canvas: document.createElement('canvas'), width: 8, height: 8, target: 80 })
  renderer.setRig(rigs.bare())
  finish(renderer)
  return renderer
}

function rendererFor({ rig, samples, ...options }: DrawOptions): PictureRenderer {
  first ??= firstRenderer()
  const renderer = new PictureRenderer({ renderer: first.renderer, target: samples, ...options })
  renderer.setRig(rigs[rig]())
  return renderer
}

function finish(renderer: PictureRenderer): number {
  let longest = 0
  for (;;) {
    const start = performance.now()
    const { done } = renderer.step(100)
    longest = Math.max(longest, performance.now() - start)
    if (done) return longest
  }
}

const tested = {
  support: () => describeSupport(document.createElement('canvas').getContext('webgl2')),
  /** Each source's layer. */
  layers(options: DrawOptions) {
    const renderer = rendererFor(options)
    const longestStepMs = finish(renderer)
    const layers = rigs[options.rig]().sources.map(({ id }) => base64(renderer.readLayer(id)))
    renderer.dispose()
    return { layers, longestStepMs }
  },
  /** The one source's layer as it stands at each of these numbers of samples, which rise by sixteens. */
  stages({ samples, ...options }: Omit<DrawOptions, 'samples'> & { readonly samples: readonly number[] }) {
    const renderer = rendererFor({ ...options, samples: Math.max(...samples) })
    const [{ id }] = rigs[options.rig]().sources
    const layers = samples.map((count) => {
      // Without a budget a step ends with its batch.
      while (renderer.progress.samples.get(id)! < count) renderer.step(0)
      if (renderer.progress.samples.get(id) !== count) throw new Error(`${options.rig}: no stage of ${count} samples`)
      return base64(renderer.readLayer(id))
    })
    renderer.dispose()
    return layers
  },
  /** What the picture says of its own error at each of these numbers of samples, with the layer as it then stands. */
  errors({ samples, ...options }: Omit<DrawOptions, 'samples'> & { readonly samples: readonly number[] }) {
    const renderer = rendererFor({ ...options, samples: Math.max(...samples) })
    const [{ id }] = rigs[options.rig]().sources
    const how: Recombination = {
      weights: [{ sourceId: id, on: true, factor: 3, rgb: [1, 1, 1] }],
      exposure: 1,
      mode: 'plain',
    }
    const told = samples.map((count) => {
      while (renderer.progress.samples.get(id)! < count) renderer.step(0)
      return { error: renderer.error(how), layer: base64(renderer.readLayer(id)) }
    })
    renderer.dispose()
    return told
  },
  pictures(options: DrawOptions, hows: readonly Recombination[]) {
    const renderer = rendererFor(options)
    finish(renderer)
    const read = hows.map((how) => ({
      linear: base64(renderer.readLinear(how)),
      display: base64(renderer.readDisplay(how)),
    }))
    renderer.dispose()
    return read
  },
  /**
   * A lamp moved and drawn to its first samples: begun at once with the wait left to the next step, patiently, and step by
   * step. The sitter must be drawn first, for what it costs to be known.
   */
  async movedThreeWays(size: { width: number; height: number }, rigName: RigName, nextName: RigName) {
    const draw = async (how: 'begun' | 'patient' | 'stepped') => {
      first ??= firstRenderer()
      const options = { renderer: first.renderer, target: 16, tileSize: 64, ...size }
      const renderer = new PictureRenderer({ ...options, patient: how === 'patient' })
      const toEnd = async () => {
        let steps = 1
        for (; !renderer.step(40).done; steps++) await new Promise((resolve) => setTimeout(resolve, 4))
        return steps
      }
      renderer.setRig(rigs[rigName]())
      await toEnd()
      renderer.setRig(rigs[nextName]())
      if (how === 'begun') renderer.begin(1e9)
      const begun = renderer.progress.done
      const steps = await toEnd()
      const layer = base64(renderer.readLayer('A'))
      renderer.dispose()
      return { layer, begun, steps }
    }
    return [await draw('begun'), await draw('patient'), await draw('stepped')]
  },
  /** A rig in the dark whose set and sitter receive the irradiance π; every surface white. */
  bounced(size: { width: number; height: number }) {
    const renderer = rendererFor({ rig: 'empty', samples: 16, ...size })
    const rig = rigs.empty()
    const { light, receivers } = evenBounce(rig)
    renderer.setIndirect([light], receivers)
    finish(renderer)
    const layer = base64(renderer.readLayer('A'))
    renderer.dispose()
    return layer
  },
  probes(options: DrawOptions, probes: readonly Probe[]) {
    const renderer = rendererFor(options)
    const readings = renderer.renderProbes(probes, options.samples)
    renderer.dispose()
    return readings.map(({ irradiance }) => base64(irradiance))
  },
}

export type Tested = typeof tested
Object.assign(window, { tested, ready: true })
