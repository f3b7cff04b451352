import {
  DoubleSide,
  FloatType,
  FrontSide,
  HalfFloatType,
  type IUniform,
  Matrix4,
  Mesh,
  NearestFilter,
  type RawShaderMaterial,
  RGBAFormat,
  type ShaderMaterialParameters,
  type Texture,
  Vector3,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three'
import { viewTangent } from '../camera'
import type { View } from '../rig'
import { sobol, type Vec3 } from '../space'
import { Pass, program } from './programs'
import { FIGURE_LOOKS, type SceneGeometry } from './scene'
import fragment from './shaders/g-buffer.frag.glsl?raw'
import vertex from './shaders/g-buffer.vert.glsl?raw'

/** Position + object, shading + flat normal, coat: of the camera's pixels or of a list of probes. */
export interface GTextures {
  readonly width: number
  readonly height: number
  readonly position: Texture
  readonly normals: Texture
  readonly coat: Texture
  readonly eye: Vec3
}

export const FLOAT_TARGET = {
  type: FloatType,
  format: RGBAFormat,
  minFilter: NearestFilter,
  magFilter: NearestFilter,
  depthBuffer: false,
} as const

const FRONT = { side: FrontSide } as const
const BOTH = { side: DoubleSide } as const
const NEAR_M = 0.05
const FAR_M = 60

/**
 * World → clip for a pixel grid of any aspect: the sensor's width spans the picture's width. The frame's z looks into
 * the scene and its x is then the picture's left, so x is negated. Jitter in pixels, from −0.5 to 0.5.
 */
export function worldToClip(view: View, width: number, height: number, jitter: readonly [number, number]): Matrix4 {
  const { origin, x, y, z } = view.frame
  const tangentX = viewTangent(view.sensorWidthMm, view.focalLengthMm)
  const tangentY = (tangentX * height) / width
  const a = (FAR_M + NEAR_M) / (FAR_M - NEAR_M)
  const b = (-2 * FAR_M * NEAR_M) / (FAR_M - NEAR_M)
  const row = (axis: Vec3, gain: number): [number, number, number, number] => [
    gain * axis[0],
    gain * axis[1],
    gain * axis[2],
    -gain * (axis[0] * origin[0] + axis[1] * origin[1] + axis[2] * origin[2]),
  ]
  const w = row(z, 1)
  const across = row(x, -1 / tangentX).map((value, i) => value + ((2 * jitter[0]) / width) * w[i])
  const up = row(y, 1 / tangentY).map((value, i) => value + ((2 * jitter[1]) / height) * w[i])
  const depth = w.map((value, i) => a * value + (i === 3 ? b : 0))
  return new Matrix4().set(...([...across, ...up, ...depth, ...w] as Parameters<Matrix4['set']>))
}

/** The j-th place within a pixel, from −0.5 to 0.5: Sobol's, shifted so that the first four balance about the middle. */
export function jitterAt(j: number): readonly [number, number] {
  return [((sobol(j, 0) + 0.125) % 1) - 0.5, ((sobol(j, 1) + 0.125) % 1) - 0.5]
}

export class GBuffer {
  readonly uniforms: Record<string, IUniform> = {
    worldToClip: { value: new Matrix4() },
    eye: { value: new Vector3() },
    objects: { value: null },
    widthPx: { value: 1 },
    lookShift: { value: 0 },
  }
  private readonly materials = {
    plain: this.material({}, FRONT),
    eye: this.material({ EYE: 1 }, FRONT),
    hair: this.material({ HAIR: 1 }, FRONT),
    skin: this.material({ SKIN: 1 }, FRONT),
    cloth: this.material({ CLOTH: 1 }, FRONT),
    lash: this.material({ STRAND: 1 }, BOTH),
    strand: this.material({ HAIR: 1, STRAND: 1 }, BOTH),
    // A canopy's cloth is both gear and lit face: the lit face wins.
    gear: this.material({}, { ...FRONT, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 4 }),
    face: this.material({ LIT_FACE: 1 }, BOTH),
  }
  private readonly target: WebGLRenderTarget
  private pass: Pass | null = null
  /** What the target shows; null: nothing yet, or an earlier scene. */
  private drawn: Matrix4 | null = null
  private eye: Vec3 = [0, 0, 0]

  constructor(width: number, height: number) {
    this.target = new WebGLRenderTarget(width, height, { ...FLOAT_TARGET, depthBuffer: true, count: 3 })
    // Half floats: 0.05 % of a reflectance, 0.04° of a normal, and a third less to write.
    for (const texture of this.target.textures.slice(1)) texture.type = HalfFloatType
  }

  private material(defines: Record<string, number>, state: ShaderMaterialParameters): RawShaderMaterial {
    return program({ vertex, fragment, uniforms: this.uniforms, defines, state })
  }

  /** The scene's geometry, anew after every change of it. */
  setScene({ figures, lashes, hairs, set, gear, faces }: SceneGeometry): void {
    const { lash, strand, plain, gear: offset, face } = this.materials
    const figureMaterials = FIGURE_LOOKS.map((look) => this.materials[look])
    this.pass = new Pass(
      [
        new Mesh(figures, figureMaterials),
        new Mesh(lashes, lash),
        new Mesh(hairs, strand),
        new Mesh(set, plain),
        new Mesh(gear, offset),
        new Mesh(faces, face),
      ].filter(({ geometry }) => (geometry.index?.count ?? 0) > 0),
    )
    this.drawn = null
  }

  prepare(renderer: WebGLRenderer): boolean {
    return this.pass?.prepare(renderer, this.target) ?? false
  }

  /** False: the last look was this one, nothing to do. shift: of coverage. */
  draw(
    renderer: WebGLRenderer,
    view: View,
    objects: Texture,
    jitter: readonly [number, number],
    shift: number,
  ): boolean {
    const look = worldToClip(view, this.target.width, this.target.height, jitter)
    if (this.drawn?.equals(look)) return false
    this.uniforms.worldToClip.value = look
    this.uniforms.eye.value.set(...view.frame.origin)
    this.uniforms.objects.value = objects
    this.uniforms.widthPx.value = this.target.width
    this.uniforms.lookShift.value = shift
    this.eye = view.frame.origin
    this.pass?.draw(renderer, this.target, true)
    this.drawn = look
    return true
  }

  get textures(): GTextures {
    const [position, normals, coat] = this.target.textures
    return { width: this.target.width, height: this.target.height, position, normals, coat, eye: this.eye }
  }

  /** Of each pixel the place, and in A the number of its object. */
  get places(): WebGLRenderTarget {
    return this.target
  }

  setSize(width: number, height: number): void {
    this.target.setSize(width, height)
    this.drawn = null
  }

  dispose(): void {
    this.target.dispose()
    for (const material of Object.values(this.materials)) material.dispose()
  }
}
