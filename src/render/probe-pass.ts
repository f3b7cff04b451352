import type { WebGLRenderer } from 'three'
import type { IndirectLight, Receivers } from '../bounce'
import { luminanceFromSrgb } from '../photometry'
import type { Rig } from '../rig'
import { Accumulator } from './accumulator'
import { BATCH } from './layouts'
import { LightLayer } from './light-layer'
import { type Probe, ProbeGrid } from './probes'
import { pointCloud } from './reach'
import { readRows } from './recombine'
import { ShadowAtlas } from './shadow-atlas'

/** Irradiance at each probe from one source at 1 cd·s in white, three bands a probe, 1/m²; and its bounced luminance. */
export interface ProbeReading {
  readonly sourceId: string
  readonly irradiance: Float32Array
  readonly bounced: Float32Array
}

export interface ProbeSetting {
  readonly renderer: WebGLRenderer
  readonly atlas: ShadowAtlas
  readonly rig: Rig
  readonly receivers: Receivers | null
  readonly lights: readonly IndirectLight[]
  readonly samples: number
  readonly seed: number
}

/** Light without shadows needs no map and is cheap, so this many times the samples are taken of it. */
const OPEN_TIMES = 16

/**
 * The picture's own passes over a list of places in the camera's stead. Direct light is what passes of the mapped
 * samples, as a share of what the same samples bring unshadowed, times what many more bring unshadowed: as in the
 * picture's first frames. So at a place that nothing hides, a few hundred samples are as good as thousands.
 */
export function measureProbes(probes: readonly Probe[], setting: ProbeSetting): readonly ProbeReading[] {
  const { renderer, atlas, rig, seed, samples } = setting
  const grid = new ProbeGrid(probes, rig, setting.receivers)
  const accumulator = new Accumulator(renderer, grid.width, grid.height, seed, 0)
  const noCasters = new ShadowAtlas(1)
  const grain = { rows: grid.height, maps: BATCH }
  const seen = pointCloud(probes.map(({ position }) => position))
  const readings = rig.sources.map((source, sourceIndex) => {
    const shadowed = new LightLayer(grid.width, grid.height, source, rig, () => seen, atlas.casters)
    shadowed.places = seen
    const carried = bounceOf(shadowed, grid, setting)
    const open = new LightLayer(grid.width, grid.height, source, aloneWith(source, rig), () => seen, atlas.casters)
    const scenery = {
      g: grid.textures,
      objects: grid.objects.texture,
      carried,
      sourceIndex,
      eyes: [],
      eyeBoxes: [],
      liftM: 0,
    }
    const read = (layer: LightLayer, maps: ShadowAtlas, wanted: number) => {
      while (layer.samples < wanted) for (const _ of accumulator.batch(layer, scenery, maps, grain));
      return readingOf(renderer, layer, probes.length, grid)
    }
    const reading = read(shadowed, atlas, samples)
    evenOut(reading, read(open, noCasters, samples), read(open, noCasters, OPEN_TIMES * samples))
    shadowed.dispose()
    open.dispose()
    return reading
  })
  for (const owner of [accumulator, noCasters, grid]) owner.dispose()
  return readings
}

/** The source, its own dish and body, and nothing else. */
const aloneWith = (source: Rig['sources'][number], rig: Rig): Rig => ({
  ...rig,
  sources: [source],
  surfaces: [],
  balls: [],
  figures: [],
})

/** A probe is white, so its direct light is the same in all bands. */
function evenOut({ irradiance, bounced }: ProbeReading, same: ProbeReading, many: ProbeReading): void {
  bounced.forEach((arrivedByBounce, i) => {
    const [r, g, b] = irradiance.subarray(3 * i, 3 * i + 3)
    const direct = luminanceFromSrgb([r, g, b]) - arrivedByBounce
    if (!(same.irradiance[3 * i] > 0)) return
    const more = direct * (many.irradiance[3 * i] / same.irradiance[3 * i] - 1)
    for (let band = 0; band < 3; band++) irradiance[3 * i + band] += more
  })
}

function bounceOf(layer: LightLayer, grid: ProbeGrid, { receivers, lights, rig }: ProbeSetting) {
  const light = lights.find(({ sourceId }) => sourceId === layer.source.id)
  if (!receivers || !light) return null
  layer.setBounce(light, receivers, rig)
  layer.ready()
  return grid.bounceOf(layer.bounce!.vertexValues)
}

function readingOf(renderer: WebGLRenderer, layer: LightLayer, count: number, grid: ProbeGrid): ProbeReading {
  const rows = readRows(renderer, layer.target, grid)
  const irradiance = new Float32Array(count * 3)
  const bounced = new Float32Array(count)
  for (let i = 0; i < count; i++) {
    const texel = (grid.height - 1 - Math.floor(i / grid.width)) * grid.width + (i % grid.width)
    for (let band = 0; band < 3; band++) irradiance[i * 3 + band] = (rows[texel * 4 + band] * Math.PI) / layer.samples
    bounced[i] = (rows[texel * 4 + 3] * Math.PI) / layer.samples
  }
  return { sourceId: layer.source.id, irradiance, bounced }
}
