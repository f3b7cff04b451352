/**
 * In the browser: the picture's route to the light at places, and its pixels. A set is a sitting's text or a named rig
 * of agreement-rigs.ts; it is solved and drawn here by the rooms that the real page uses.
 */
import figureUrl from '../../assets/sitter.glb?url'
import {
  bounceScene,
  createBounce,
  type IndirectLight,
  type ListQuality,
  type Receivers,
  type SolveQuality,
} from '../../src/bounce'
import { exposureScale } from '../../src/camera'
import { dressFigure, type FigureAsset, readFigureAsset } from '../../src/figure'
import { createRayCaster } from '../../src/rays'
import { type PictureOptions, PictureRenderer, type Probe } from '../../src/render'
import { assembleRig, type Rig } from '../../src/rig'
import { readSitting } from '../../src/sitting'
import { mirroredFigure } from '../figure/mirrored'
import { askedAcross, withoutStrands } from '../rig/mirrored'
import { type RigOrder, rigOf } from './agreement-rigs'

/**
 * sitter: bald and without lashes and brows, which are drawn by lot and not alike on both sides; mirrored, they are shown as a mirror
 * shows them, and lamps are asked as rig/mirrored.ts tells. Left out: as the sitting has them.
 */
export type SetOrder = { readonly sittingText: string; readonly sitter?: 'bare' | 'mirrored' } | RigOrder

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
  /** Skin without film and gloss: its body alone. */
  readonly noShine?: boolean
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
  const asset = await figure()
  if (!set.sitter) return assembleRig(read.sitting, { figure: asset })
  const bare = dressFigure(asset, { hairCut: 'bald', headwear: 'none' }, {})
  if (set.sitter === 'bare') return withoutStrands(assembleRig(read.sitting, { figure: bare }))
  return withoutStrands(askedAcross(assembleRig(read.sitting, { figure: mirroredFigure(bare) })))
}

interface Solved {
  readonly rig: Rig
  readonly lights: readonly IndirectLight[]
  readonly receivers: Receivers
}

const NO_RECEIVERS: Receivers = { grids: [], patchCount: 0, figures: [], vertexCount: 0, eyes: { cells: 0, maps: [] } }

/** The set with the bounce of the sources that fire; those that are off would be solved, and drawn, for nothing. */
async function solvedSet(set: SetOrder, order: BounceOrder | null): Promise<Solved> {
  const rig = await built(set)
  if (!order) return { rig, lights: [], receivers: NO_RECEIVERS }
  const scene = bounceScene(rig)
  const bounce = createBounce(scene, createRayCaster(scene.bodies), order.lists)
  const lights = rig.sources.filter(({ on }) => on).map((source) => bounce.solve(source, order.solve))
  return { rig, lights, receivers: bounce.receivers }
}

let latest: { readonly key: string; readonly solved: Promise<Solved> } | null = null

/** The latest set is kept: pictures and probes of one set need its bounce once. */
function solvedOnce(set: SetOrder, bounce: BounceOrder | null): Promise<Solved> {
  const key = JSON.stringify([set, bounce])
  if (latest?.key !== key) latest = { key, solved: solvedSet(set, bounce) }
  return latest.solved
}

type RendererHow = Pick<PictureOptions, 'target' | 'tileSize' | 'antialias'>

/** A renderer for all probes, and one for all pictures of so many samples: a new one would compile its shaders again. */
const renderers = new Map<string, PictureRenderer>()

function rendererFor(use: string, width: number, height: number, how: RendererHow = {}): PictureRenderer {
  const canvas = document.createElement('canvas')
  const renderer = renderers.get(use) ?? new PictureRenderer({ canvas, width, height, ...how })
  renderers.set(use, renderer)
  renderer.setSize(width, height)
  return renderer
}

const tested = {
  async probes({ set, probes, samples, bounce }: ProbeOrder): Promise<ProbeAnswer> {
    const { rig, lights, receivers } = await solvedOnce(set, bounce)
    const renderer = rendererFor('probes', 16, 16)
    renderer.setRig(rig)
    renderer.setIndirect(lights, receivers)
    const readings = renderer.renderProbes(probes, samples)
    return readings.map((reading) => ({ irradiance: base64(reading.irradiance), bounced: base64(reading.bounced) }))
  },
  async picture({ set, width, height, samples, bounce, fNumber, noShine = false }: PictureOrder) {
    const { rig: whole, lights, receivers } = await solvedOnce(set, bounce)
    const figures = whole.figures.map((figure) => ({ ...figure, skinRoughness: 0 }))
    const rig = noShine ? { ...whole, figures } : whole
    // Skin without shine is looked at in small pictures, away from any shadow's edge: smaller maps do.
    const how = { target: samples, ...(noShine && { tileSize: 128 }) }
    const renderer = rendererFor(JSON.stringify(how), width, height, how)
    renderer.setRig(rig)
    renderer.setIndirect(lights, receivers)
    const lit = rig.sources.filter(({ on }) => on)
    const isDone = () => lit.every(({ id }) => renderer.progress.samples.get(id)! >= samples)
    while (!isDone()) {
      renderer.step(500)
      await new Promise((resolve) => setTimeout(resolve))
    }
    const weighed = {
      weights: rig.sources.map(({ id, on, axialIntensity, colour }) => ({
        sourceId: id,
        on,
        factor: axialIntensity,
        rgb: colour,
      })),
      exposure: exposureScale(rig.view.iso, fNumber),
      mode: 'plain' as const,
    }
    return { linear: base64(renderer.readLinear(weighed)), display: base64(renderer.readDisplay(weighed)) }
  },
}

Object.assign(window, { tested, ready: true })
