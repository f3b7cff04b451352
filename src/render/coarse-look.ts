import { type IUniform, WebGLRenderTarget } from 'three'
import { FLOAT_TARGET } from './g-buffer'

const STRIDE = 2
/** What a row of it costs, of one of the picture's. */
export const COARSE_SHARE = 1 / STRIDE

/**
 * The set in every other pixel both ways. The first batch after a change goes by it where four neighbours show one thing in
 * even light, and shades only the rest: a moving hand waits a quarter less.
 */
export class CoarseLook {
  readonly target: WebGLRenderTarget

  /** uniforms: of the programs that shade. */
  constructor(
    width: number,
    height: number,
    private readonly uniforms: Record<string, IUniform>,
  ) {
    this.target = new WebGLRenderTarget(...sizeFor(width, height), FLOAT_TARGET)
    uniforms.coarse = { value: this.target.texture }
    uniforms.stride = { value: 1 }
    uniforms.hasCoarse = { value: false }
  }

  /** What is shaded next is the look. */
  begin(): void {
    this.uniforms.coarse.value = null
    this.uniforms.stride.value = STRIDE
  }

  /** What is shaded next goes by it. */
  use(): void {
    this.uniforms.coarse.value = this.target.texture
    this.uniforms.stride.value = 1
    this.uniforms.hasCoarse.value = true
  }

  /** What is shaded next is all of a picture. */
  leave(): void {
    this.uniforms.stride.value = 1
    this.uniforms.hasCoarse.value = false
  }

  setSize(width: number, height: number): void {
    this.target.setSize(...sizeFor(width, height))
  }

  dispose(): void {
    this.target.dispose()
  }
}

const sizeFor = (width: number, height: number): [number, number] => [
  Math.ceil(width / STRIDE),
  Math.ceil(height / STRIDE),
]
