import type { WebGLRenderer } from 'three'
import type { IndirectLight, Receivers } from '../bounce'
import type { Rig } from '../rig'
import { Accumulator } from './accumulator'
import { BATCH } from './layouts'
import { LightLayer } from './light-layer'
import { type Probe, ProbeGrid } from './probes'
import { readRows } from './recombine'
import type { ShadowAtlas } from './shadow-atlas'

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

/** The picture's own passes over a list of places in the camera's stead. */
export function measureProbes(probes: readonly Probe[], setting: ProbeSetting): readonly ProbeReading[] {
  const { renderer, rig, seed } = setting
  const grid = new ProbeGrid(probes, rig, setting.receivers)
  const accumulator = new Accumulator(renderer, grid.width, grid.height, seed, 0)
  const grain = { rows: grid.height, maps: BATCH }
  const seen = probes.map(({ position }) => position)
  const readings = rig.sources.map((source, sourceIndex) => {
    const layer = new LightLayer(grid.width, grid.height, source, rig, seen)
    const bounce = bounceOf(layer, grid, setting)
    const scenery = {
      g: grid.textures,
      objects: grid.objects.texture,
      figureBounce: bounce,
      sourceIndex,
      eyes: [],
    }
    while (layer.samples < setting.samples)
      for (const _ of accumulator.batch(layer, scenery, setting.atlas, grain));
    const reading = readingOf(renderer, layer, probes.length, grid)
    layer.dispose()
    return reading
  })
  accumulator.dispose()
  grid.dispose()
  return readings
}

function bounceOf(layer: LightLayer, grid: ProbeGrid, { receivers, lights, rig }: ProbeSetting) {
  const light = lights.find(({ sourceId }) => sourceId === layer.source.id)
  if (!receivers || !light) return null
  layer.setBounce(light, receivers, rig)
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
