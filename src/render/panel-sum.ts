import { type DataTexture, type IUniform, type Texture, type WebGLRenderer, WebGLRenderTarget } from 'three'
import { isEnsemble } from './ensemble'
import { FLOAT_TARGET } from './g-buffer'
import { LIT_STRIDE, PANEL_POINT_STRIDE } from './layouts'
import type { LightLayer } from './light-layer'
import { packVirtualLight } from './pack'
import { FullScreenPass } from './programs'
import fragment from './shaders/panel-sum.frag.glsl?raw'
import { Records, strip } from './table'

/** Where it is asked for: the sitters' places come first. */
export interface SumPlaces {
  readonly positions: DataTexture
  readonly normals: DataTexture
  readonly figures: number
}

const ROW = 1024
/** Points a batch that tell how much of the panels shows. */
export const SHOWING = 8

/**
 * Metal throws narrow lobes: of the hundreds of points of a panel, sixteen a batch tell little, and were most of the noise of many sources
 * drawn as one. What all bring where nothing hides them is therefore summed at the sitters' places, once, and carried to the pixels,
 * which ask a few points only how much of the panel shows.
 */
export class PanelSum {
  private readonly uniforms: Record<string, IUniform> = Object.fromEntries(
    ['placePositions', 'placeNormals', 'pointCount', 'points'].map((name) => [name, { value: null }]),
  )
  private readonly pass = new FullScreenPass({ fragment, uniforms: this.uniforms })

  /** Only of many sources drawn as one, which are never drawn to their end. */
  sums({ source, points }: LightLayer): boolean {
    return isEnsemble(source) && points.length > 0
  }

  prepare(renderer: WebGLRenderer, layer: LightLayer): boolean {
    return this.sums(layer) && this.pass.prepare(renderer, null)
  }

  /** Irradiance, three bands a place, in rows of 1024, per 1 cd·s in white and for BATCH samples, 1/m². */
  of(renderer: WebGLRenderer, layer: LightLayer, places: SumPlaces): Texture {
    layer.panelSum ??= this.draw(renderer, layer, places)
    return layer.panelSum.texture
  }

  private draw(
    renderer: WebGLRenderer,
    { points, whiteGain }: LightLayer,
    { positions, normals, figures }: SumPlaces,
  ): WebGLRenderTarget {
    const records = new Records(PANEL_POINT_STRIDE, points.length)
    points.forEach((point, row) => {
      packVirtualLight(records, row, { point, weight: 1 }, whiteGain, LIT_STRIDE)
    })
    const texture = strip(records.data)
    const { uniforms: u } = this
    u.placePositions.value = positions
    u.placeNormals.value = normals
    u.points.value = texture
    u.pointCount.value = points.length
    const sum = new WebGLRenderTarget(ROW, Math.max(1, Math.ceil(figures / ROW)), FLOAT_TARGET)
    this.pass.draw(renderer, sum)
    texture.dispose()
    return sum
  }

  dispose(): void {
    this.pass.dispose()
  }
}
