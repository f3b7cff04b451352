import { type IUniform, type Texture, Vector2, Vector3, type WebGLRenderer, WebGLRenderTarget } from 'three'
import type { DisplayMode } from '../camera'
import type { Frame } from '../space'
import { Defocus, DISPLAY, DISPLAY_DEFINES, LEAST_PX } from './defocus'
import { FLOAT_TARGET } from './g-buffer'
import { MAX_SOURCES } from './layouts'
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
  /** It shines all along the exposure, and so in the part that flash does not reach. */
  readonly burnsOn?: boolean
}

export interface Recombination {
  readonly weights: readonly SourceWeight[]
  /** Picture value per cd·s/m²: camera's exposureScale. */
  readonly exposure: number
  readonly mode: DisplayMode
  /** bounced: only light that came by way of the room, panels and sitter, as luminance. */
  readonly part?: 'all' | 'bounced'
  /** No flash where a·x + b·y + c > 0, x and y from −1 to 1, rightwards and up; left out: flash everywhere. */
  readonly dark?: readonly [number, number, number]
  /** Left out: all is sharp. */
  readonly blur?: Blur
}

/** What is out of focus: a point at a depth u is spread over a disc of |u − focusM|/u · farShare of the picture's width. */
export interface Blur {
  readonly focusM: number
  readonly farShare: number
}

/** Weighs layers into one picture: no rendering, one read of each layer. */
export class Recombiner {
  private pass: FullScreenPass | null = null
  private layers = 0
  private isDark = false
  private defocus: Defocus | null = null
  private uniforms: Record<string, IUniform> = {}

  /** Places of the pixels and who looks at them: what a blur goes by. */
  look: { readonly places: Texture; readonly frame: Frame } | null = null

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
    const display = output === 'linear' ? DISPLAY.linear : DISPLAY[how.mode]
    if (!how.blur || !this.look || how.blur.farShare * layers[0].target.width < LEAST_PX) {
      this.sum(renderer, target, layers, how, display)
      return
    }
    this.defocus ??= new Defocus()
    for (const { how: part, keep } of bandedParts(how)) {
      const sharp = this.defocus.sharp(layers[0].target)
      this.sum(renderer, sharp, layers, part, DISPLAY.linear)
      this.defocus.draw(renderer, target, { ...this.look, ...how.blur, keep, display })
    }
  }

  private sum(
    renderer: WebGLRenderer,
    target: WebGLRenderTarget | null,
    layers: readonly LightLayer[],
    how: Recombination,
    display: number,
  ): void {
    this.prepare(layers.length, how.dark !== undefined)
    layers.forEach((layer, i) => {
      this.uniforms[`layer${i}`].value = layer.target.texture
      const weight = how.weights.find(({ sourceId }) => sourceId === layer.source.id)
      const gain = weight?.on && layer.samples > 0 ? weight.factor / layer.samples : 0
      const rgb = weight?.rgb ?? [0, 0, 0]
      this.uniforms.weights.value[i].set(gain * rgb[0], gain * rgb[1], gain * rgb[2])
      this.uniforms.steady.value[i].copy(this.uniforms.weights.value[i]).multiplyScalar(weight?.burnsOn ? 1 : 0)
    })
    this.uniforms.dark.value.set(...(how.dark ?? [0, 0, 0]))
    this.uniforms.size.value.set(layers[0].target.width, layers[0].target.height)
    this.uniforms.bouncedOnly.value = how.part === 'bounced' ? 1 : 0
    this.uniforms.exposure.value = how.exposure
    this.uniforms.display.value = display
    this.pass!.draw(renderer, target)
  }

  private prepare(count: number, dark: boolean): void {
    if (this.layers === count && this.isDark === dark) return
    if (count > MAX_SOURCES)
      throw new Error(`sources: expected at most ${MAX_SOURCES} in one picture, got ${count}. Remove some.`)
    this.pass?.dispose()
    this.layers = count
    this.isDark = dark
    const each = Array.from({ length: count }, (_, i) => i)
    this.uniforms = {
      weights: { value: each.map(() => new Vector3()) },
      steady: { value: each.map(() => new Vector3()) },
      dark: { value: new Vector3() },
      size: { value: new Vector2() },
      bouncedOnly: { value: 0 },
      exposure: { value: 1 },
      display: { value: 0 },
      ...Object.fromEntries(each.map((i) => [`layer${i}`, { value: null }])),
    }
    const samplers = each.map((i) => `uniform sampler2D layer${i};`).join('\n')
    const weight = (i: number) => (dark ? `(isDark ? steady[${i}] : weights[${i}])` : `weights[${i}]`)
    const sum = each.map((i) => `  linear += ${weight(i)} * lightOf(texelFetch(layer${i}, pixel, 0));`).join('\n')
    this.pass = new FullScreenPass({
      fragment: fragment.replace('//#layers', samplers).replace('//#sum', sum),
      uniforms: this.uniforms,
      defines: { LAYERS: count, ...DISPLAY_DEFINES, ...(dark ? { DARK_BAND: 1 } : {}) },
    })
  }

  dispose(): void {
    this.pass?.dispose()
    this.pass = null
    this.layers = 0
    this.defocus?.dispose()
    this.defocus = null
  }
}

/** A shutter's band lies on the sensor and has a sharp edge: what falls on either side of it is blurred by itself. */
function bandedParts({ dark, ...how }: Recombination) {
  if (!dark) return [{ how, keep: [0, 0, 1] as const }]
  const steady = how.weights.map((weight) => ({ ...weight, on: weight.on && weight.burnsOn === true }))
  return [
    { how, keep: [-dark[0], -dark[1], -dark[2]] as const },
    { how: { ...how, weights: steady }, keep: dark },
  ]
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
