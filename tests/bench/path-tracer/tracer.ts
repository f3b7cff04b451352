import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DoubleSide,
  Mesh,
  MeshPhysicalMaterial,
  PerspectiveCamera,
  PlaneGeometry,
  Scene,
  type ShaderMaterial,
  Vector3,
  WebGLRenderer,
  type WebGLRenderTarget,
} from 'three'
import { ShapedAreaLight, WebGLPathTracer } from 'three-gpu-pathtracer'
import type { Rig, RigSource, Surface } from '../../../src/rig'
import { add, length, type Vec3 } from '../../../src/space'

/**
 * three-gpu-pathtracer with Lambert surfaces and metals as the project has them. Of many bounces it takes all as it is; asked for
 * direct light alone:
 * - a metal reflects F0 at every angle: its F90, white in the library, is put to F0;
 * - a dielectric of refractive index 1 and small roughness reflects nothing and leaves a diffuse lobe that is Lambert's to
 *   within 0.1·(1 − cos θ)⁵ at grazing light (the stock one adds retro-reflection);
 * - one bounce ends the path at what the camera sees, and its light there comes from points of the lit face alone. The
 *   library weighs that light down (multiple importance sampling), as it expects a second ray to bring the rest: that one
 *   weight is put to 1, or the picture would be too dark. Whether it is right is checked on a bare wall, in closed form.
 */
const WEIGHT = 'misHeuristic( lightPdf, lightMaterialPdf )'
const GRAZING = 'vec3( mix( surf.specularIntensity, 1.0, surf.metalness ) )'
const ROUGHNESS = 0.05
/** Samples queued before the card is waited for. */
const QUEUE = 8

/** What the library keeps to itself: the material whose shader holds the weight. */
interface Insides {
  readonly _pathTracer: { readonly material: ShaderMaterial }
}

export class Tracer {
  private readonly renderer: WebGLRenderer
  private readonly tracer: WebGLPathTracer

  constructor(
    readonly width: number,
    readonly height: number,
    /** Of a path: 1 is direct light alone. */
    bounces = 1,
  ) {
    this.renderer = new WebGLRenderer({ antialias: false, depth: false, powerPreference: 'high-performance' })
    this.renderer.setPixelRatio(1)
    this.renderer.setSize(width, height, false)
    this.tracer = new WebGLPathTracer(this.renderer)
    Object.assign(this.tracer, { bounces, renderDelay: 0, minSamples: 0, renderToCanvas: false })
    Object.assign(this.tracer, { rasterizeScene: false, dynamicLowRes: false })
    this.tracer.tiles.set(1, 1)
    const { material } = (this.tracer as unknown as Insides)._pathTracer
    rewritten(material, GRAZING, 'mix( vec3( surf.specularIntensity ), surf.color, surf.metalness )')
    if (bounces === 1) rewritten(material, WEIGHT, '1.0')
  }

  /** From the next sample on. */
  setRig(rig: Rig): void {
    this.tracer.setScene(sceneOf(rig), cameraOf(rig, this.width / this.height))
  }

  /** Compiles if need be, which takes minutes without a graphics card, and draws a sample that is then forgotten. */
  async warmUp(): Promise<void> {
    while (this.tracer.samples < 1) {
      this.tracer.renderSample()
      this.wait()
      await new Promise((resolve) => setTimeout(resolve, 10))
    }
    this.tracer.reset()
  }

  /** Adds samples until there are so many a pixel, and waits for the last. */
  drawTo(samples: number): void {
    for (let queued = 1; this.tracer.samples < samples; queued++) {
      this.tracer.renderSample()
      if (queued % QUEUE === 0) this.wait()
    }
    this.wait()
  }

  /** Radiance, RGBA floats, rows from the top. */
  read(): Float32Array {
    const { width, height } = this
    const upsideDown = new Float32Array(width * height * 4)
    this.renderer.readRenderTargetPixels(this.target, 0, 0, width, height, upsideDown)
    const values = new Float32Array(upsideDown.length)
    for (let y = 0; y < height; y++)
      values.set(upsideDown.subarray((height - 1 - y) * width * 4, (height - y) * width * 4), y * width * 4)
    return values
  }

  private get target(): WebGLRenderTarget {
    return this.tracer.target
  }

  private wait(): void {
    this.renderer.readRenderTargetPixels(this.target, 0, 0, 1, 1, new Float32Array(4))
  }
}

function rewritten(material: ShaderMaterial, from: string, to: string): void {
  const parts = material.fragmentShader.split(from)
  if (parts.length !== 2)
    throw new Error(`three-gpu-pathtracer: expected ${from} once in its shader, got ${parts.length - 1}`)
  material.fragmentShader = parts.join(to)
  material.needsUpdate = true
}

function sceneOf(rig: Rig): Scene {
  const scene = new Scene()
  // Opaque: without it the library blends transparent pictures, which is slower.
  scene.background = new Color(0, 0, 0)
  for (const { posed, albedo } of rig.figures)
    for (const { name, mesh } of posed.parts) {
      const geometry = new BufferGeometry()
      geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3))
      geometry.setAttribute('normal', new BufferAttribute(mesh.normals, 3))
      geometry.setIndex(new BufferAttribute(mesh.indices, 1))
      scene.add(new Mesh(geometry, matt(albedo[name])))
    }
  for (const surface of rig.surfaces) scene.add(flat(surface))
  for (const source of rig.sources) scene.add(lightOf(source))
  return scene
}

function matt([red, green, blue]: Vec3): MeshPhysicalMaterial {
  const color = new Color().setRGB(red, green, blue)
  return new MeshPhysicalMaterial({
    color,
    ior: 1,
    specularIntensity: 0,
    roughness: ROUGHNESS,
    metalness: 0,
    side: DoubleSide,
  })
}

function metal([red, green, blue]: Vec3, roughness: number): MeshPhysicalMaterial {
  const color = new Color().setRGB(red, green, blue)
  return new MeshPhysicalMaterial({ color, roughness, metalness: 1, side: DoubleSide })
}

/** Both sides as the front. */
function flat({ rect: { centre, halfU, halfV }, front }: Surface): Mesh {
  const geometry = new PlaneGeometry(2 * length(halfU), 2 * length(halfV))
  const mesh = new Mesh(geometry, front.kind === 'matt' ? matt(front.albedo) : metal(front.f0, front.roughness))
  const [x, y] = [new Vector3(...halfU).normalize(), new Vector3(...halfV).normalize()]
  mesh.matrix.makeBasis(x, y, new Vector3().crossVectors(x, y)).setPosition(...centre)
  mesh.matrixAutoUpdate = false
  return mesh
}

/** A uniform lit face of luminance 1; three's lights shine along −z, which lookAt turns to the aim. */
function lightOf({ frame, emitters }: RigSource): ShapedAreaLight {
  const { surface } = emitters[0].emission
  if (surface.shape !== 'disc' && surface.shape !== 'rectangle')
    throw new Error(`path tracer bench: a disc or a rectangle, got ${surface.shape}`)
  const [width, height] =
    surface.shape === 'disc' ? [2 * surface.radiusM, 2 * surface.radiusM] : [surface.widthM, surface.heightM]
  const light = new ShapedAreaLight(new Color(1, 1, 1), 1, width, height)
  light.isCircular = surface.shape === 'disc'
  light.position.set(...frame.origin)
  light.lookAt(...add(frame.origin, frame.z))
  return light
}

function cameraOf({ view }: Rig, aspect: number): PerspectiveCamera {
  const halfHeight = view.sensorWidthMm / (2 * view.focalLengthMm) / aspect
  const camera = new PerspectiveCamera((2 * Math.atan(halfHeight) * 180) / Math.PI, aspect, 0.05, 60)
  camera.position.set(...view.frame.origin)
  camera.lookAt(...add(view.frame.origin, view.frame.z))
  camera.updateMatrixWorld()
  return camera
}
