/**
 * The bare page that `picture` drives: a sitting's text and the sitter's bytes in, pixels out. Everything between is
 * the program's own rooms, as in the real page.
 */
import { bounceScene, createBounce } from '../bounce'
import { readFigureAsset, readWardrobe, type WornName } from '../figure'
import { createRayCaster } from '../rays'
import { describeSupport, PictureRenderer, type ReExposure, recombinationOf } from '../render'
import { assembleRig, type Look, type Rig, type RigAssets, rigSeen } from '../rig'
import { problemSentence, readSitting, type Sitting } from '../sitting'

export interface PictureOrder {
  readonly sittingText: string
  /** assets/sitter.glb, base64. */
  readonly figure: string
  /** Files of what is worn, base64. */
  readonly worn: Partial<Record<WornName, string>>
  /** Pixels; the height follows from the sensor. */
  readonly width: number
  readonly samples: number
  readonly seed: number
  readonly mode: 'plain' | 'shoulder'
  readonly look: Look
  /** What is out of focus is blurred; the profile is seen by no lens. */
  readonly blurred: boolean
  /** As the meter has it: the picture alone can't know. */
  readonly exposure: ReExposure
}

/** Pixels as base64: sRGB bytes, or float RGBA. Rows from the top. */
export interface PictureAnswer {
  readonly width: number
  readonly height: number
  readonly display: string
  /** Exposed linear sRGB: 1 is perfect white in metered light. */
  readonly linear: string
  /** The same of each source alone. */
  readonly layers: readonly { readonly name: string; readonly linear: string }[]
}

async function draw(order: PictureOrder): Promise<PictureAnswer> {
  const sitting = sittingOf(order.sittingText)
  const rig = rigSeen(assembleRig(sitting, assetsOf(order)), order.look)
  const width = order.width
  const height = Math.round((width * rig.view.sensorHeightMm) / rig.view.sensorWidthMm)
  const canvas = document.querySelector('canvas') ?? document.body.appendChild(document.createElement('canvas'))
  const missing = describeSupport(document.createElement('canvas').getContext('webgl2'))
  if (missing) throw new Error(missing)
  const renderer = new PictureRenderer({ canvas, width, height, seed: order.seed, target: order.samples })
  renderer.setRig(rig)
  addBounce(renderer, rig)
  while (!renderer.step(200).done) await new Promise((resolve) => setTimeout(resolve))
  const how = recombinationOf(rig, order.exposure, {
    mode: order.mode,
    blurOfMm: order.blurred && order.look !== 'profile' ? sitting.camera.focalLengthMm : undefined,
  })
  const answer = {
    width,
    height,
    display: base64(renderer.readDisplay(how)),
    linear: base64(renderer.readLinear(how)),
    layers: rig.sources.map(({ id, letter }) => ({
      name: letter,
      linear: base64(renderer.readLinear({ ...how, weights: how.weights.filter(({ sourceId }) => sourceId === id) })),
    })),
  }
  renderer.dispose()
  return answer
}

function assetsOf({ figure, worn }: PictureOrder): RigAssets {
  const files = Object.entries(worn).map(([name, file]) => [name, bytesFromBase64(file)])
  return {
    figure: readFigureAsset(bytesFromBase64(figure)),
    wardrobe: readWardrobe(Object.fromEntries(files)),
  }
}

function sittingOf(text: string): Sitting {
  const read = readSitting(text)
  if ('problems' in read) throw new Error(read.problems.map(problemSentence).join('\n'))
  return read.sitting
}

function addBounce(renderer: PictureRenderer, rig: Rig): void {
  const scene = bounceScene(rig)
  const bounce = createBounce(scene, createRayCaster(scene.bodies))
  renderer.setIndirect(
    rig.sources.map((source) => bounce.solve(source)),
    bounce.receivers,
  )
}

const CHUNK = 0x8000

function base64(values: ArrayBufferView): string {
  const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength)
  let text = ''
  for (let i = 0; i < bytes.length; i += CHUNK) text += String.fromCharCode(...bytes.subarray(i, i + CHUNK))
  return btoa(text)
}

const bytesFromBase64 = (text: string): Uint8Array => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))

Object.assign(window, { draw, ready: true })
