import { type IUniform, Vector3, type WebGLRenderer, WebGLRenderTarget } from 'three'
import { type DisplayMode, SHOULDER_KNEE } from '../camera'
import { FLOAT_TARGET } from './g-buffer'
import type { LightLayer } from './light-layer'
import { FullScreenPass } from './programs'
import fragment from './shaders/combine.frag.glsl?raw'

export interface SourceWeight {
  readonly sourceId: string
  readonly on: boolean
  /** Axial intensity in cd·s. */
  readonly factor: number
  /** Colour of the light, luminance 1. */
  readonly rgb: readonly [number, number, number]
}

export interface Recombination {
  readonly weights: readonly SourceWeight[]
  /** Picture value per cd·s/m²: camera's exposureScale. */
  readonly exposure: number
  readonly mode: DisplayMode
  /** bounced: only light that came by way of the room, panels and sitter, as luminance. */
  readonly part?: 'all' | 'bounced'
}

/** WebGL2 promises 16 textures to a fragment shader. */
export const MAX_SOURCES = 14
const DISPLAY: Readonly<Record<DisplayMode | 'linear', number>> = { linear: 0, plain: 1, shoulder: 2 }

/** Weighs layers into one picture: no rendering, one read of each layer. */
export class Recombiner {
  private pass: FullScreenPass | null = null
  private layers = 0
  private uniforms: Record<string, IUniform> = {}

  /** Exposed linear values, or what the display gets; target null: the canvas. */
  draw(
    renderer: WebGLRenderer,
    target: WebGLRenderTarget | null,
    layers: readonly LightLayer[],
    how: Recombination,
    output: 'linear' | 'display',
  ): void {
    if (layers.length === 0) {
      renderer.setRenderTarget(target)
      renderer.clear(true, false, false)
      return
    }
    this.prepare(layers.length)
    layers.forEach((layer, i) => {
      this.uniforms[`layer${i}`].value = layer.target.texture
      const weight = how.weights.find(({ sourceId }) => sourceId === layer.source.id)
      const gain = weight?.on && layer.samples > 0 ? weight.factor / layer.samples : 0
      const rgb = weight?.rgb ?? [0, 0, 0]
      this.uniforms.weights.value[i].set(gain * rgb[0], gain * rgb[1], gain * rgb[2])
    })
    this.uniforms.bouncedOnly.value = how.part === 'bounced' ? 1 : 0
    this.uniforms.exposure.value = how.exposure
    this.uniforms.display.value = output === 'linear' ? DISPLAY.linear : DISPLAY[how.mode]
    this.pass!.draw(renderer, target)
  }

  private prepare(count: number): void {
    if (this.layers === count) return
    if (count > MAX_SOURCES)
      throw new Error(`sources: expected at most ${MAX_SOURCES} in one picture, got ${count}. Remove some.`)
    this.pass?.dispose()
    this.layers = count
    const each = Array.from({ length: count }, (_, i) => i)
    this.uniforms = {
      weights: { value: each.map(() => new Vector3()) },
      bouncedOnly: { value: 0 },
      exposure: { value: 1 },
      display: { value: 0 },
      ...Object.fromEntries(each.map((i) => [`layer${i}`, { value: null }])),
    }
    const samplers = each.map((i) => `uniform sampler2D layer${i};`).join('\n')
    const sum = each.map((i) => `  linear += weights[${i}] * lightOf(texelFetch(layer${i}, pixel, 0));`).join('\n')
    this.pass = new FullScreenPass({
      fragment: fragment.replace('//#layers', samplers).replace('//#sum', sum),
      uniforms: this.uniforms,
      defines: {
        LAYERS: count,
        SHOULDER_KNEE: SHOULDER_KNEE.toFixed(6),
        DISPLAY_LINEAR: DISPLAY.linear,
        DISPLAY_PLAIN: DISPLAY.plain,
        DISPLAY_SHOULDER: DISPLAY.shoulder,
      },
    })
  }

  dispose(): void {
    this.pass?.dispose()
    this.pass = null
    this.layers = 0
  }
}

/** Exposed linear RGBA of the whole picture, rows from the top. */
export function readLinear(
  renderer: WebGLRenderer,
  recombiner: Recombiner,
  layers: readonly LightLayer[],
  how: Recombination,
  size: { readonly width: number; readonly height: number },
): Float32Array {
  const target = new WebGLRenderTarget(size.width, size.height, FLOAT_TARGET)
  recombiner.draw(renderer, target, layers, how, 'linear')
  const values = readRows(renderer, target, size)
  target.dispose()
  return values
}

/** RGBA floats of a target, rows from the top (the graphics card's run from the bottom). */
export function readRows(
  renderer: WebGLRenderer,
  target: WebGLRenderTarget,
  { width, height }: { readonly width: number; readonly height: number },
): Float32Array {
  const upsideDown = new Float32Array(width * height * 4)
  renderer.readRenderTargetPixels(target, 0, 0, width, height, upsideDown)
  const values = new Float32Array(upsideDown.length)
  for (let y = 0; y < height; y++)
    values.set(upsideDown.subarray((height - 1 - y) * width * 4, (height - y) * width * 4), y * width * 4)
  return values
}

/** What the display gets, sRGB bytes, three a pixel, rows from the top. */
export function readDisplayed(
  renderer: WebGLRenderer,
  recombiner: Recombiner,
  layers: readonly LightLayer[],
  how: Recombination,
  { width, height }: { readonly width: number; readonly height: number },
): Uint8Array<ArrayBuffer> {
  const target = new WebGLRenderTarget(width, height, { depthBuffer: false })
  recombiner.draw(renderer, target, layers, how, 'display')
  const rgba = new Uint8Array(width * height * 4)
  renderer.readRenderTargetPixels(target, 0, 0, width, height, rgba)
  target.dispose()
  const rgb = new Uint8Array(width * height * 3)
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let band = 0; band < 3; band++)
        rgb[(y * width + x) * 3 + band] = rgba[((height - 1 - y) * width + x) * 4 + band]
  return rgb
}
