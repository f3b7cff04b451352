import { type IUniform, type Texture, Vector2, Vector3, type WebGLRenderer, WebGLRenderTarget } from 'three'
import { type DisplayMode, SHOULDER_KNEE } from '../camera'
import { MOST_BLUR } from '../rig'
import type { Frame } from '../space'
import { FLOAT_TARGET } from './g-buffer'
import { FullScreenPass } from './programs'
import circles from './shaders/defocus-circles.frag.glsl?raw'
import gather from './shaders/defocus-gather.frag.glsl?raw'
import reach from './shaders/defocus-reach.frag.glsl?raw'

/** What the shaders call the ways to show a linear value. */
export const DISPLAY: Readonly<Record<DisplayMode | 'linear', number>> = { linear: 0, plain: 1, shoulder: 2 }
export const DISPLAY_DEFINES = {
  SHOULDER_KNEE: SHOULDER_KNEE.toFixed(6),
  DISPLAY_LINEAR: DISPLAY.linear,
  DISPLAY_PLAIN: DISPLAY.plain,
  DISPLAY_SHOULDER: DISPLAY.shoulder,
}

/** A far blur under so many pixels changes nothing. */
export const LEAST_PX = 1
/** Tiles across the picture. No disc is drawn with a radius over a tile. */
const TILES = 2 / MOST_BLUR

export interface Defocusing {
  /** World places of the pixels; A: 0 where there is nothing. */
  readonly places: Texture
  readonly frame: Frame
  readonly focusM: number
  readonly farShare: number
  readonly display: number
  /** Drawn where a·x + b·y + c ≥ 0, x and y from −1 to 1, rightwards and up. */
  readonly keep: readonly [number, number, number]
}

/**
 * Spreads a sharp linear picture by what is out of focus, in three passes: each pixel's disc; the largest of each tile, so that a pixel
 * looks no farther than a disc may reach it; and the sum of the discs that do. Made only when a blur is asked for.
 */
export class Defocus {
  private readonly sums = new WebGLRenderTarget(1, 1, FLOAT_TARGET)
  private readonly discs = new WebGLRenderTarget(1, 1, FLOAT_TARGET)
  private readonly tiles = new WebGLRenderTarget(1, 1, FLOAT_TARGET)
  private readonly uniforms: Record<string, IUniform> = {
    sharp: { value: this.sums.texture },
    discs: { value: this.discs.texture },
    tiles: { value: this.tiles.texture },
    places: { value: null },
    eye: { value: new Vector3() },
    axis: { value: new Vector3() },
    focus: { value: 1 },
    farRadius: { value: 0 },
    tile: { value: 1 },
    size: { value: new Vector2() },
    display: { value: 0 },
    keep: { value: new Vector3() },
  }
  private readonly circles = new FullScreenPass({ fragment: circles, uniforms: this.uniforms })
  private readonly reach = new FullScreenPass({ fragment: reach, uniforms: this.uniforms })
  private readonly gather = new FullScreenPass({ fragment: gather, uniforms: this.uniforms, defines: DISPLAY_DEFINES })

  /** Where the sharp picture is to be summed, as large as the layers are. */
  sharp({ width, height }: { readonly width: number; readonly height: number }): WebGLRenderTarget {
    const tile = Math.ceil(width / TILES)
    this.sums.setSize(width, height)
    this.discs.setSize(width, height)
    this.tiles.setSize(Math.ceil(width / tile), Math.ceil(height / tile))
    this.uniforms.tile.value = tile
    this.uniforms.size.value.set(width, height)
    return this.sums
  }

  draw(renderer: WebGLRenderer, target: WebGLRenderTarget | null, what: Defocusing): void {
    const { places, frame, focusM, farShare, display, keep } = what
    this.uniforms.places.value = places
    this.uniforms.eye.value.set(...frame.origin)
    this.uniforms.axis.value.set(...frame.z)
    this.uniforms.focus.value = focusM
    this.uniforms.farRadius.value = (farShare * this.sums.width) / 2
    this.uniforms.display.value = display
    this.uniforms.keep.value.set(...keep)
    this.circles.draw(renderer, this.discs)
    this.reach.draw(renderer, this.tiles)
    this.gather.draw(renderer, target)
  }

  dispose(): void {
    for (const owner of [this.sums, this.discs, this.tiles, this.circles, this.reach, this.gather]) owner.dispose()
  }
}
