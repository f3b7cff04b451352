import {
  type BufferGeometry,
  type DataTexture,
  FrontSide,
  HalfFloatType,
  type IUniform,
  Matrix4,
  Mesh,
  NearestFilter,
  RGBAFormat,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three'
import type { IndirectLight, Receivers } from '../bounce'
import type { Rig } from '../rig'
import type { Vec3 } from '../space'
import { Pass, program } from './programs'
import fragment from './shaders/bounce.frag.glsl?raw'
import vertex from './shaders/bounce.vert.glsl?raw'
import { strip } from './table'

/** A source's settled bounce as the shaders read it, per 1 cd·s in white: irradiance in 1/m². */
export interface BounceTextures {
  /** One entry a vertex of the figure geometry. */
  readonly vertices: DataTexture
  readonly vertexValues: Float32Array
  /** One entry a patch of the set, of balls and of gear. */
  readonly patches: DataTexture
}

export function bounceTextures(light: IndirectLight, receivers: Receivers, rig: Rig, whiteGain: Vec3): BounceTextures {
  const vertexValues = figureValues(light.vertices, receivers, rig, whiteGain)
  return { vertices: strip(vertexValues), vertexValues, patches: strip(patchValues(light.patches, whiteGain)) }
}

function patchValues(patches: Float32Array, whiteGain: Vec3): Float32Array {
  const count = patches.length / 3
  const values = new Float32Array(Math.max(1, count) * 4)
  for (let i = 0; i < count; i++)
    for (let band = 0; band < 3; band++) values[i * 4 + band] = patches[i * 3 + band] * whiteGain[band]
  return values
}

/** From the proxies' vertices to all vertices of the figure geometry, in its order (parts one after another). */
function figureValues(light: Float32Array, receivers: Receivers, rig: Rig, whiteGain: Vec3): Float32Array {
  const parts = rig.figures.flatMap((figure) => figure.posed.parts.map((posed) => ({ figure, posed })))
  const total = parts.reduce((sum, { posed }) => sum + posed.mesh.positions.length / 3, 0)
  const values = new Float32Array(total * 4)
  let first = 0
  for (const { figure, posed } of parts) {
    const count = posed.mesh.positions.length / 3
    const place = receivers.figures
      .find(({ figureId }) => figureId === figure.id)
      ?.parts.find(({ name }) => name === posed.name)
    if (place) spread(values.subarray(first * 4), light, place, posed.part, count, whiteGain)
    first += count
  }
  return values
}

type PartReceivers = Receivers['figures'][number]['parts'][number]
type FigurePart = Rig['figures'][number]['posed']['parts'][number]['part']

function spread(
  values: Float32Array,
  light: Float32Array,
  { first, vertexOf }: PartReceivers,
  { proxyCorners, proxyWeights }: FigurePart,
  count: number,
  whiteGain: Vec3,
): void {
  const receiverOf = new Int32Array(count).fill(-1)
  vertexOf.forEach((vertexNumber, i) => {
    receiverOf[vertexNumber] = first + i
  })
  for (let v = 0; v < count; v++)
    for (let corner = 0; corner < 3; corner++) {
      const receiver = receiverOf[proxyCorners[v * 3 + corner]]
      const weight = proxyWeights[v * 3 + corner]
      if (receiver < 0 || weight === 0) continue
      for (let band = 0; band < 3; band++) values[v * 4 + band] += weight * light[receiver * 3 + band] * whiteGain[band]
    }
}

/** Draws the sitters with a source's bounced irradiance, from the camera and with the G-buffer's own jitter. */
export class BouncePass {
  readonly target: WebGLRenderTarget
  private readonly uniforms: Record<string, IUniform> = {
    worldToClip: { value: new Matrix4() },
    vertexBounce: { value: null },
  }
  private readonly material = program({ vertex, fragment, uniforms: this.uniforms, state: { side: FrontSide } })
  private pass: Pass | null = null

  constructor(width: number, height: number) {
    this.target = new WebGLRenderTarget(width, height, {
      type: HalfFloatType,
      format: RGBAFormat,
      minFilter: NearestFilter,
      magFilter: NearestFilter,
    })
  }

  setFigures(geometry: BufferGeometry): void {
    this.pass = (geometry.index?.count ?? 0) > 0 ? new Pass([new Mesh(geometry, this.material)]) : null
  }

  draw(renderer: WebGLRenderer, worldToClip: Matrix4, bounce: BounceTextures): void {
    this.uniforms.worldToClip.value = worldToClip
    this.uniforms.vertexBounce.value = bounce.vertices
    this.pass?.draw(renderer, this.target, true)
  }

  setSize(width: number, height: number): void {
    this.target.setSize(width, height)
  }

  dispose(): void {
    this.target.dispose()
    this.material.dispose()
  }
}
