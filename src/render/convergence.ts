import { type IUniform, type WebGLRenderer, WebGLRenderTarget } from 'three'
import { FLOAT_TARGET } from './g-buffer'
import type { LightLayer } from './light-layer'
import { FullScreenPass } from './programs'
import type { Recombination } from './recombine'
import fragment from './shaders/sparse.frag.glsl?raw'

/** Places along the picture's longer side at which a layer is looked at. */
const PLACES = 96
/** Two looks tell something when the later has so many times the samples of the earlier. */
const APART = 1.5
const LUMINANCE = [0.2126, 0.7152, 0.0722]

/** What a layer's mean was when it was last looked at, and by how much that probably misses, RGBA at each place. */
export interface Look {
  readonly samples: number
  readonly mean: Float32Array
  readonly miss: Float32Array | null
}

/**
 * Tells how far a picture is from the finished one by what its own samples changed. Of b samples and the first a of them, the
 * means of independent samples differ by the error of the later times √((b − a)/a); even samples converge faster, so it errs
 * on the safe side.
 */
export class Convergence {
  private readonly uniforms: Record<string, IUniform> = { layer: { value: null }, stride: { value: 1 } }
  private readonly pass = new FullScreenPass({ fragment, uniforms: this.uniforms, defines: {} })
  private readonly target = new WebGLRenderTarget(1, 1, FLOAT_TARGET)

  /** Looks at a layer that has enough more samples than at the last look. Waits for the card. */
  look(renderer: WebGLRenderer, layer: LightLayer): void {
    const before = layer.lastLook
    if (layer.samples < APART * (before?.samples ?? 1)) return
    const mean = this.read(renderer, layer.target).map((value) => value / layer.samples)
    const scale = before && Math.sqrt(before.samples / (layer.samples - before.samples))
    const miss = before && mean.map((value, i) => scale! * (value - before.mean[i]))
    layer.lastLook = { samples: layer.samples, mean, miss }
  }

  private read(renderer: WebGLRenderer, { texture, width, height }: WebGLRenderTarget): Float32Array {
    const stride = Math.max(1, Math.floor(Math.max(width, height) / PLACES))
    const [across, down] = [Math.floor(width / stride), Math.floor(height / stride)]
    this.target.setSize(across, down)
    this.uniforms.layer.value = texture
    this.uniforms.stride.value = stride
    this.pass.draw(renderer, this.target)
    const values = new Float32Array(across * down * 4)
    renderer.readRenderTargetPixels(this.target, 0, 0, across, down, values)
    return values
  }

  dispose(): void {
    this.pass.dispose()
    this.target.dispose()
  }
}

/**
 * Root mean square error of the weighed layers in luminance, as a share of their mean; null: too few samples to tell, or no
 * light.
 */
export function errorOf(layers: readonly LightLayer[], { weights }: Recombination): number | null {
  const seen = layers.flatMap(({ source, lastLook: look }) => {
    const weight = weights.find(({ sourceId, on }) => on && sourceId === source.id)
    return weight ? [{ look, gain: LUMINANCE.map((share, band) => share * weight.factor * weight.rgb[band]) }] : []
  })
  if (seen.length === 0 || seen.some(({ look }) => !look?.miss)) return null
  const luminance = (values: Float32Array, gain: readonly number[], i: number) =>
    gain[0] * values[i] + gain[1] * values[i + 1] + gain[2] * values[i + 2]
  let [light, squares, places] = [0, 0, 0]
  for (let i = 0; i < seen[0].look!.mean.length; i += 4) {
    let miss = 0
    for (const { look, gain } of seen) {
      light += luminance(look!.mean, gain, i)
      miss += luminance(look!.miss!, gain, i)
    }
    squares += miss * miss
    places++
  }
  return light > 0 ? Math.sqrt(squares * places) / light : null
}
