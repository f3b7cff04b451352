import {
  type BufferGeometry,
  DepthTexture,
  DoubleSide,
  InstancedBufferGeometry,
  Mesh,
  NearestFilter,
  type RawShaderMaterial,
  RedFormat,
  UnsignedIntType,
  Vector3,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three'
import type { Mirror } from '../rig'
import type { Block } from './block'
import { ATLAS_SIDE, MIRRORED_ROW } from './layouts'
import { Pass, program } from './programs'
import fragment from './shaders/shadow.frag.glsl?raw'
import vertex from './shaders/shadow.vert.glsl?raw'
import { boundingSphere, type Sphere } from './shadow-frustum'

/** Slope-scaled offset measured best of four schemes: no acne, least light leaking in at the nose. */
const STATE = {
  side: DoubleSide,
  polygonOffset: true,
  polygonOffsetFactor: 2,
  polygonOffsetUnits: 2,
  colorWrite: false,
} as const

/** Shadow maps of the sitters from the sixteen points of a batch, side by side in one depth texture. */
export class ShadowAtlas {
  readonly target: WebGLRenderTarget
  casters: Sphere | null = null
  private readonly geometry = new InstancedBufferGeometry()
  private readonly material = program({
    vertex,
    fragment,
    uniforms: { first: { value: 0 } },
    state: STATE,
  })
  private readonly pass = new Pass([new Mesh(this.geometry, this.material)])
  /** Made when a set first has a mirror. */
  private mirrored: { readonly material: RawShaderMaterial; readonly pass: Pass } | null = null

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

  /** The sitters as the camera's pass draws them, whose places on the card are shared with it; places: of all their vertices, m. */
  setFigures(figures: BufferGeometry, places: Float32Array): void {
    const position = figures.getAttribute('position')
    // No wider than they are, or a map's pixels would be.
    this.casters = boundingSphere(places)
    if (this.geometry.getAttribute('position') === position) return
    this.geometry.dispose()
    this.geometry.setAttribute('position', position)
    this.geometry.boundingSphere = figures.boundingSphere
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

  /** Maps of the casters as the mirror shows them to so many samples from the first on, from MIRRORED_ROW on; `draw` has cleared them. */
  drawMirrored(renderer: WebGLRenderer, samples: Block, { rect, normal }: Mirror, first: number, count: number): void {
    if (!this.casters || count === 0) return
    const { material, pass } = this.throughMirror()
    material.uniformsGroups = [samples.group]
    material.uniforms.first.value = MIRRORED_ROW + first
    material.uniforms.mirrorCentre.value.set(...rect.centre)
    material.uniforms.mirrorNormal.value.set(...normal)
    material.uniformsNeedUpdate = true
    this.geometry.instanceCount = count
    pass.draw(renderer, this.target)
  }

  private throughMirror() {
    if (this.mirrored) return this.mirrored
    const uniforms = {
      first: { value: 0 },
      mirrorCentre: { value: new Vector3() },
      mirrorNormal: { value: new Vector3() },
    }
    const material = program({ vertex, fragment, uniforms, defines: { OVER_MIRROR: 1 }, state: STATE })
    this.mirrored = { material, pass: new Pass([new Mesh(this.geometry, material)]) }
    return this.mirrored
  }

  dispose(): void {
    this.mirrored?.material.dispose()
    this.target.depthTexture?.dispose()
    this.target.dispose()
    this.geometry.dispose()
    this.material.dispose()
  }
}
