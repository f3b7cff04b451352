/** Two routes to the light at a place: the picture's probes in the browser, and the meter in Node. Luminous, lx·s. */
import { readFileSync } from 'node:fs'
import { readFigureAsset } from '../../src/figure'
import { bodiesOf, bounceAt, directAt, type MeterScene } from '../../src/meter'
import { luminanceFromSrgb, type Rgb } from '../../src/photometry'
import { createRayCaster } from '../../src/rays'
import type { Probe } from '../../src/render'
import { assembleRig, type Rig } from '../../src/rig'
import { readSitting } from '../../src/sitting'
import type { PictureOrder, ProbeAnswer, ProbeOrder } from './agreement.page'
import { floatsFromBase64, type OpenPage } from './harness'

const figure = readFigureAsset(new Uint8Array(readFileSync('assets/sitter.glb')))

export function rigOfText(sittingText: string): Rig {
  const read = readSitting(sittingText)
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  return assembleRig(read.sitting, { figure })
}

export function meterScene(rig: Rig): MeterScene {
  const bodies = bodiesOf(rig)
  return { rig, bodies, caster: createRayCaster(bodies.bodies) }
}

/** Of all sources that fire, at their powers. */
export interface Light {
  readonly direct: number
  readonly bounced: number
}

/** Luminous exposure at each probe by the picture's own passes; perSource in white at 1 cd·s, 1/m². */
export async function byPicture(open: OpenPage, order: ProbeOrder, { sources }: Rig) {
  const answer = (await open.page.evaluate(`tested.probes(${JSON.stringify(order)})`)) as ProbeAnswer
  const perSource = answer.map(({ irradiance, bounced }) => ({
    irradiance: floatsFromBase64(irradiance),
    bounced: floatsFromBase64(bounced),
  }))
  const lights = order.probes.map((_, i): Light => {
    let total = 0
    let bounced = 0
    sources.forEach(({ on, axialIntensity, colour }, s) => {
      if (!on) return
      const white = perSource[s].irradiance.subarray(3 * i, 3 * i + 3)
      total += axialIntensity * luminanceFromSrgb([0, 1, 2].map((band) => white[band] * colour[band]) as unknown as Rgb)
      bounced += axialIntensity * perSource[s].bounced[i]
    })
    return { direct: total - bounced, bounced }
  })
  return { lights, perSource }
}

export function byMeter(scene: MeterScene, { position, normal }: Probe, paths: number): Light {
  const probe = { point: position, normal }
  const powers = new Map(scene.rig.sources.map(({ id, axialIntensity }) => [id, axialIntensity]))
  const direct = directAt(scene, probe, 'disc').reduce(
    (sum, { sourceId, perCandela }) => sum + perCandela * powers.get(sourceId)!,
    0,
  )
  if (paths === 0) return { direct, bounced: 0 }
  const bounced = bounceAt(scene, probe, 'disc', { paths }).reduce(
    (sum, { sourceId, mean }) => sum + luminanceFromSrgb(mean) * powers.get(sourceId)!,
    0,
  )
  return { direct, bounced }
}

export function meanOf(lights: readonly Light[]): Light {
  const mean = (part: keyof Light) => lights.reduce((sum, light) => sum + light[part], 0) / lights.length
  return { direct: mean('direct'), bounced: mean('bounced') }
}

export async function pixelsOf(open: OpenPage, order: PictureOrder) {
  const { linear, display } = (await open.page.evaluate(`tested.picture(${JSON.stringify(order)})`)) as {
    readonly linear: string
    readonly display: string
  }
  return { linear: floatsFromBase64(linear), display: Buffer.from(display, 'base64') }
}

/** Lets what was sent to the browser leave before this thread computes: the two then work side by side. */
export const sent = () => new Promise((resolve) => setTimeout(resolve, 50))
