/**
 * In the browser: the picture's route to the light at places, and its pixels. A set is a sitting's text or a named rig
 * of agreement-rigs.ts; it is solved and drawn here by the rooms that the real page uses.
 */
import figureUrl from '../../assets/sitter.glb?url'
import { bounceScene, createBounce, type ListQuality, type SolveQuality } from '../../src/bounce'
import { exposureScale } from '../../src/camera'
import { type FigureAsset, readFigureAsset } from '../../src/figure'
import { createRayCaster } from '../../src/rays'
import { PictureRenderer, type Probe } from '../../src/render'
import { assembleRig, type Rig } from '../../src/rig'
import { readSitting } from '../../src/sitting'
import { type RigOrder, rigOf } from './agreement-rigs'

export type SetOrder = { readonly sittingText: string } | RigOrder

export interface BounceOrder {
  readonly lists?: ListQuality
  readonly solve?: SolveQuality
}

export interface ProbeOrder {
  readonly set: SetOrder
  readonly probes: readonly Probe[]
  readonly samples: number
  /** null: direct light alone. */
  readonly bounce: BounceOrder | null
}

/** Per source of the rig: irradiance in white at 1 cd·s, three bands a probe, and the bounced luminance, 1/m². */
export type ProbeAnswer = readonly { readonly irradiance: string; readonly bounced: string }[]

export interface PictureOrder {
  readonly set: SetOrder
  readonly width: number
  readonly height: number
  readonly samples: number
  readonly bounce: BounceOrder | null
  /** Instead of the document's, f-number of the exposure. */
  readonly fNumber: number
}

const base64 = (values: ArrayBufferView): string => {
  const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength)
  let text = ''
  for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000))
  return btoa(text)
}

let asset: FigureAsset | null = null
async function figure(): Promise<FigureAsset> {
  asset ??= readFigureAsset(new Uint8Array(await (await fetch(figureUrl)).arrayBuffer()))
  return asset
}

async function built(set: SetOrder): Promise<Rig> {
  if (!('sittingText' in set)) return rigOf(set)
  const read = readSitting(set.sittingText)
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  return assembleRig(read.sitting, { figure: await figure() })
}

const NO_RECEIVERS = { grids: [], patchCount: 0, figures: [], vertexCount: 0 }

function setBounce(renderer: PictureRenderer, rig: Rig, order: BounceOrder | null): void {
  if (!order) {
    renderer.setIndirect([], NO_RECEIVERS)
    return
  }
  const scene = bounceScene(rig)
  const bounce = createBounce(scene, createRayCaster(scene.bodies), order.lists)
  const lights = rig.sources.map((source) => bounce.solve(source, order.solve))
  renderer.setIndirect(lights, bounce.receivers)
}

/** One for all probes: a new one would compile its shaders again. */
let prober: PictureRenderer | null = null

const tested = {
  async probes({ set, probes, samples, bounce }: ProbeOrder): Promise<ProbeAnswer> {
    prober ??= new PictureRenderer({ canvas: document.createElement('canvas'), width: 16, height: 16 })
    const rig = await built(set)
    prober.setRig(rig)
    setBounce(prober, rig, bounce)
    const readings = prober.renderProbes(probes, samples)
    return readings.map((reading) => ({ irradiance: base64(reading.irradiance), bounced: base64(reading.bounced) }))
  },
  async picture({ set, width, height, samples, bounce, fNumber }: PictureOrder) {
    const canvas = document.createElement('canvas')
    const renderer = new PictureRenderer({ canvas, width, height, target: samples })
    const rig = await built(set)
    renderer.setRig(rig)
    setBounce(renderer, rig, bounce)
    while (!renderer.step(500).done) await new Promise((resolve) => setTimeout(resolve))
    const how = {
      weights: rig.sources.map(({ id, on, axialIntensity, colour }) => ({
        sourceId: id,
        on,
        factor: axialIntensity,
        rgb: colour,
      })),
      exposure: exposureScale(rig.view.iso, fNumber),
      mode: 'plain' as const,
    }
    const answer = { linear: base64(renderer.readLinear(how)), display: base64(renderer.readDisplay(how)) }
    renderer.dispose()
    return answer
  },
}

Object.assign(window, { tested, ready: true })
