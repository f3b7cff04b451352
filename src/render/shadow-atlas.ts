import {
  type BufferGeometry,
  DepthTexture,
  DoubleSide,
  InstancedBufferGeometry,
  Mesh,
  NearestFilter,
  RedFormat,
  UnsignedIntType,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three'
import type { Block } from './block'
import { ATLAS_SIDE } from './layouts'
import { Pass, program } from './programs'
import fragment from './shaders/shadow.frag.glsl?raw'
import vertex from './shaders/shadow.vert.glsl?raw'
import { boundingSphere, type Sphere } from './shadow-frustum'

/** Shadow maps of the sitters from the sixteen points of a batch, side by side in one depth texture. */
export class ShadowAtlas {
  readonly target: WebGLRenderTarget
  casters: Sphere | null = null
  private readonly geometry = new InstancedBufferGeometry()
  private readonly material = program({
    vertex,
    fragment,
    uniforms: { first: { value: 0 } },
    // Slope-scaled offset measured best of four schemes: no acne, least light leaking in at the nose.
    state: { side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 2, polygonOffsetUnits: 2, colorWrite: false },
  })
  private readonly pass = new Pass([new Mesh(this.geometry, this.material)])

  constructor(readonly tileSize: number) {
    const side = tileSize * ATLAS_SIDE
    const depthTexture = new DepthTexture(side, side, UnsignedIntType)
    depthTexture.minFilter = depthTexture.magFilter = NearestFilter
    this.target = new WebGLRenderTarget(side, side, {
      format: RedFormat,
      depthTexture,
      minFilter: NearestFilter,
      magFilter: NearestFilter,
    })
  }

  /** The sitters as the camera's pass draws them; their places on the card are shared with it. */
  setFigures(figures: BufferGeometry): void {
    const position = figures.getAttribute('position')
    this.casters = boundingSphere(position.array)
    if (this.geometry.getAttribute('position') === position) return
    this.geometry.dispose()
    this.geometry.setAttribute('position', position)
    this.geometry.setIndex(figures.index)
  }

  prepare(renderer: WebGLRenderer, samples: Block): boolean {
    if (!this.casters) return false
    this.material.uniformsGroups = [samples.group]
    return this.pass.prepare(renderer, this.target)
  }

  /** Maps of so many samples from the first on; those of the first clear the rest. */
  draw(renderer: WebGLRenderer, samples: Block, first: number, count: number): void {
    if (!this.casters || count === 0) return
    this.material.uniformsGroups = [samples.group]
    this.material.uniforms.first.value = first
    this.material.uniformsNeedUpdate = true
    this.geometry.instanceCount = count
    this.pass.draw(renderer, this.target, first === 0)
  }

  dispose(): void {
    this.target.depthTexture?.dispose()
    this.target.dispose()
    this.geometry.dispose()
    this.material.dispose()
  }
}
