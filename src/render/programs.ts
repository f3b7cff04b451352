import {
  BufferAttribute,
  BufferGeometry,
  Camera,
  GLSL3,
  type IUniform,
  type Material,
  Mesh,
  NoBlending,
  RawShaderMaterial,
  Scene,
  type ShaderMaterialParameters,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from 'three'
import type { Block } from './block'
import { LAYOUT_DEFINES } from './layouts'
import arrival from './shaders/arrival.glsl?raw'
import bounceIncluded from './shaders/bounce.glsl?raw'
import carriage from './shaders/carriage.glsl?raw'
import coarse from './shaders/coarse.glsl?raw'
import coverage from './shaders/coverage.glsl?raw'
import display from './shaders/display.glsl?raw'
import emission from './shaders/emission.glsl?raw'
import emitterBlock from './shaders/emitter-block.glsl?raw'
import eye from './shaders/eye.glsl?raw'
import eyeMap from './shaders/eye-map.glsl?raw'
import eyeOptics from './shaders/eye-optics.glsl?raw'
import eyeWhite from './shaders/eye-white.glsl?raw'
import film from './shaders/film.glsl?raw'
import fullScreenVertex from './shaders/full-screen.vert.glsl?raw'
import grain from './shaders/grain.glsl?raw'
import hidden from './shaders/hidden.glsl?raw'
import irisLight from './shaders/iris-light.glsl?raw'
import lens from './shaders/lens.glsl?raw'
import lenses from './shaders/lenses.glsl?raw'
import lookThrough from './shaders/look-through.glsl?raw'
import mirror from './shaders/mirror.glsl?raw'
import occluders from './shaders/occluders.glsl?raw'
import overMirror from './shaders/over-mirror.glsl?raw'
import sampleBlock from './shaders/sample-block.glsl?raw'
import sampleSum from './shaders/sample-sum.glsl?raw'
import seams from './shaders/seams.glsl?raw'
import seen from './shaders/seen.glsl?raw'
import shadowMap from './shaders/shadow-map.glsl?raw'
import skinRelief from './shaders/skin-relief.glsl?raw'
import strand from './shaders/strand.glsl?raw'
import tables from './shaders/tables.glsl?raw'
import visibility from './shaders/visibility.glsl?raw'
import yarn from './shaders/yarn.glsl?raw'

const PRECISION =
  'precision highp float;\nprecision highp int;\nprecision highp sampler2D;\n#define PI 3.141592653589793\n'
const INCLUDED: Readonly<Record<string, string>> = {
  arrival,
  bounce: bounceIncluded,
  carriage,
  coarse,
  coverage,
  display,
  emission,
  emitterBlock,
  eye,
  eyeMap,
  eyeOptics,
  eyeWhite,
  film,
  grain,
  hidden,
  irisLight,
  lens,
  lenses,
  lookThrough,
  mirror,
  occluders,
  overMirror,
  sampleBlock,
  sampleSum,
  seams,
  seen,
  shadowMap,
  skinRelief,
  strand,
  visibility,
  yarn,
}

/** Shader text with its preamble, and each line `//#include name` replaced by that file. */
export const shaderText = (source: string): string =>
  PRECISION + LAYOUT_DEFINES + tables + source.replace(/^\/\/#include (\w+)$/gm, (_, name: string) => INCLUDED[name])

export interface ProgramOptions {
  readonly vertex: string
  readonly fragment: string
  readonly uniforms: Record<string, IUniform>
  readonly defines?: Record<string, string | number>
  readonly state?: ShaderMaterialParameters
  readonly blocks?: readonly Block[]
}

export function program({
  vertex,
  fragment,
  uniforms,
  defines = {},
  state = {},
  blocks: groups = [],
}: ProgramOptions): RawShaderMaterial {
  const material = new RawShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: shaderText(vertex),
    fragmentShader: shaderText(fragment),
    uniforms,
    defines,
    blending: NoBlending,
    ...state,
  })
  material.uniformsGroups = groups.map(({ group }) => group)
  return material
}

const prepared = new WeakSet<Material>()

/** Draws geometry with three but without its cameras and culling: the shaders bring their own projection. */
export class Pass {
  private readonly scene = new Scene()
  private readonly camera = new Camera()

  constructor(readonly meshes: readonly Mesh[]) {
    this.scene.matrixWorldAutoUpdate = false
    for (const mesh of meshes) {
      mesh.frustumCulled = false
      this.scene.add(mesh)
    }
  }

  /** Hands over what is not yet compiled, without waiting for it. True: there was something. */
  prepare(renderer: WebGLRenderer, target: WebGLRenderTarget | null): boolean {
    const materials = this.meshes.flatMap(({ material }) => material).filter((material) => !prepared.has(material))
    if (materials.length === 0) return false
    renderer.setRenderTarget(target)
    renderer.compile(this.scene, this.camera)
    for (const material of materials) prepared.add(material)
    return true
  }

  draw(renderer: WebGLRenderer, target: WebGLRenderTarget | null, clear = false): void {
    renderer.setRenderTarget(target)
    if (clear) renderer.clear(true, true, false)
    renderer.render(this.scene, this.camera)
  }
}

/** A shader over every pixel of its target. */
export class FullScreenPass {
  readonly material: RawShaderMaterial
  private readonly pass: Pass
  private readonly geometry = new BufferGeometry()

  constructor(options: Omit<ProgramOptions, 'vertex' | 'state'>) {
    this.material = program({ ...options, vertex: fullScreenVertex, state: { depthTest: false, depthWrite: false } })
    this.geometry.setAttribute('position', new BufferAttribute(new Float32Array([-1, -1, 0, 3, -1, 0, -1, 3, 0]), 3))
    this.pass = new Pass([new Mesh(this.geometry, this.material)])
  }

  prepare(renderer: WebGLRenderer, target: WebGLRenderTarget | null): boolean {
    return this.pass.prepare(renderer, target)
  }

  draw(renderer: WebGLRenderer, target: WebGLRenderTarget | null): void {
    this.pass.draw(renderer, target)
  }

  dispose(): void {
    this.material.dispose()
    this.geometry.dispose()
  }
}
