/**
 * In the browser: all the light of the picture, bounce settled, against three-gpu-pathtracer with many bounces, in rooms.
 * rooms.mjs calls window.rooms.
 */
import { bounceScene, createBounce, SETTLED, SETTLED_LISTS } from '../../../src/bounce'
import type { FigureAsset } from '../../../src/figure'
import { createRayCaster } from '../../../src/rays'
import type { Rig } from '../../../src/rig'
import { breath, Easel, finish, loadFigure } from '../gpu/studio'
import { REGIONS, type RegionName, roomRegions } from './room-regions'
import { roomRig, type SetName } from './room-rigs'
import { Tracer } from './tracer'

export interface RoomOrder {
  readonly set: SetName
  /** Numbers of a head pose and of a key's place, from 0. */
  readonly pose: number
  readonly key: number
  /** Of the picture. */
  readonly samples: number
  /** How long the path tracer may draw, s. */
  readonly seconds: number
}

/** Shares in per cent of the region's mean total light by the path tracer. */
interface RegionMisses {
  readonly pixels: number
  readonly bias: number
  readonly rmse: number
  /** Without the path tracer's own noise, by the difference of its two halves. */
  readonly rmseLessNoise: number
  /** The same, less the worst 3 % of the pixels. */
  readonly rmseTrimmed: number
  /** Bounced light of the picture over that of the path tracer: both less the picture's direct light. */
  readonly bounceRatio: number
  /** Red over green of the bounced light. */
  readonly bleed: { readonly picture: number; readonly traced: number }
}

const SEED = 1
const TRIMMED = 0.03
const WEIGHTS = [0.2126, 0.7152, 0.0722]

let figure: FigureAsset
let easel: Easel
let tracer: Tracer
const crevicesOf = new Map<number, Map<number, boolean>>()

async function picture(rig: Rig, samples: number, bounced: boolean): Promise<Float32Array> {
  const renderer = easel.renderer(samples, { seed: SEED })
  renderer.setRig(rig)
  if (bounced) {
    const scene = bounceScene(rig)
    const bounce = createBounce(scene, createRayCaster(scene.bodies), SETTLED_LISTS)
    renderer.setIndirect([bounce.solve(rig.sources[0], SETTLED)], bounce.receivers)
  }
  await finish(renderer)
  const layer = renderer.readLayer('A')
  renderer.dispose()
  return layer
}

/** Doubles the samples until the time is up; the last picture and the one of half its samples. */
async function traced(seconds: number) {
  let [samples, ms] = [1, 0]
  let half: Float32Array = new Float32Array(0)
  for (; ; samples *= 2) {
    const start = performance.now()
    tracer.drawTo(samples)
    ms += performance.now() - start
    const all = tracer.read()
    if (ms > (seconds * 1000) / 2 && samples > 1) return { samples, ms, all, half }
    half = all
    await breath()
  }
}

const luminance = (rgba: Float32Array, i: number): number =>
  WEIGHTS.reduce((sum, weight, band) => sum + weight * rgba[4 * i + band], 0)

interface Pictures {
  readonly all: Float32Array
  readonly direct: Float32Array
  readonly truth: Float32Array
  readonly half: Float32Array
}

function missesIn(region: RegionName, names: readonly (RegionName | null)[], pictures: Pictures): RegionMisses {
  const { all, direct, truth, half } = pictures
  const pixels = names.flatMap((name, i) => (name === region ? [i] : []))
  const sum = (value: (i: number) => number, over = pixels) => over.reduce((total, i) => total + value(i), 0)
  const miss = (i: number) => luminance(all, i) - luminance(truth, i)
  const percent = 100 / (sum((i) => luminance(truth, i)) / pixels.length)
  const kept = pixels
    .toSorted((a, b) => Math.abs(miss(a)) - Math.abs(miss(b)))
    .slice(0, Math.ceil((1 - TRIMMED) * pixels.length))
  const squares = (over: readonly number[]) => sum((i) => miss(i) ** 2, [...over]) / over.length
  // Of N samples the mean and of N/2 differ by the noise of the mean of N.
  const noise = (over: readonly number[]) =>
    sum((i) => (luminance(half, i) - luminance(truth, i)) ** 2, [...over]) / over.length
  const lessNoise = (over: readonly number[]) => percent * Math.sqrt(Math.max(0, squares(over) - noise(over)))
  const bounced = (rgba: Float32Array, band: number) => sum((i) => rgba[4 * i + band] - direct[4 * i + band])
  return {
    pixels: pixels.length,
    bias: (percent * sum(miss)) / pixels.length,
    rmse: percent * Math.sqrt(squares(pixels)),
    rmseLessNoise: lessNoise(pixels),
    rmseTrimmed: lessNoise(kept),
    bounceRatio:
      sum((i) => luminance(all, i) - luminance(direct, i)) / sum((i) => luminance(truth, i) - luminance(direct, i)),
    bleed: { picture: bounced(all, 0) / bounced(all, 1), traced: bounced(truth, 0) / bounced(truth, 1) },
  }
}

const rooms = {
  async open(figureUrl: string, width: number, height: number, bounces: number): Promise<void> {
    figure = await loadFigure(figureUrl)
    easel = new Easel(width, height)
    tracer = new Tracer(width, height, bounces)
  },

  async compare({ set, pose, key, samples, seconds }: RoomOrder) {
    const rig = roomRig(figure, set, pose, key)
    const crevices = crevicesOf.get(pose) ?? new Map<number, boolean>()
    crevicesOf.set(pose, crevices)
    const names = roomRegions(rig, easel.width, easel.height, crevices)
    const all = await picture(rig, samples, true)
    const direct = await picture(rig, samples, false)
    tracer.setRig(rig)
    await tracer.warmUp()
    const judge = await traced(seconds)
    const pictures = { all, direct, truth: judge.all, half: judge.half }
    const regions = Object.fromEntries(REGIONS.map((region) => [region, missesIn(region, names, pictures)]))
    return { set, pose, key, samples, tracedSamples: judge.samples, tracedMs: judge.ms, regions }
  },
}

Object.assign(window, { rooms, ready: true })
