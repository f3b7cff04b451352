import { type GLBufferAttribute, type WebGLRenderer, WebGLRenderTarget } from 'three'
import { shaderText } from './programs'
import vertex from './shaders/pose.vert.glsl?raw'
import { POSED, type SitterGeometry } from './sitter-geometry'

const FRAGMENT = 'out vec4 none;\nvoid main() { none = vec4(0.0); }\n'
const KEPT = ['posedPosition', 'posedNormal', 'posedCombed']
const CARRIAGE = ['pivot', 'at', 'head', 'body'] as const
const VERTEX_BYTES = 12

/** A geometry's lists on the card. */
interface Buffers {
  readonly inputs: WebGLVertexArrayObject
  readonly atRest: readonly WebGLBuffer[]
  readonly headWeight: WebGLBuffer
  readonly posed: readonly WebGLBuffer[]
}

/** Poses sitters' vertices on the card, once for all that draws them. Twin: poseFigure. */
export class PosePass {
  private readonly gl: WebGL2RenderingContext
  private readonly program: WebGLProgram
  private readonly uniforms: readonly (WebGLUniformLocation | null)[]
  /** Nothing is drawn into it, but the canvas would count as drawn. */
  private readonly nowhere = new WebGLRenderTarget(1, 1, { depthBuffer: false })
  private readonly made = new Map<SitterGeometry, Buffers>()

  constructor(private readonly renderer: WebGLRenderer) {
    this.gl = renderer.getContext() as WebGL2RenderingContext
    this.program = linked(this.gl)
    this.uniforms = CARRIAGE.map((name) => this.gl.getUniformLocation(this.program, name))
  }

  pose(geometry: SitterGeometry): void {
    const { gl, renderer } = this
    const before = gl.getParameter(gl.VERTEX_ARRAY_BINDING)
    const { inputs, posed } = this.buffersOf(geometry)
    renderer.setRenderTarget(this.nowhere)
    // biome-ignore lint/correctness/useHookAtTopLevel: WebGL's word, no hook of React
    renderer.state.useProgram(this.program)
    gl.bindVertexArray(inputs)
    gl.enable(gl.RASTERIZER_DISCARD)
    for (const { first, count, carriage } of geometry.spans) {
      CARRIAGE.forEach((name, i) => {
        gl.uniform3f(this.uniforms[i], ...carriage[name])
      })
      posed.forEach((buffer, i) => {
        gl.bindBufferRange(gl.TRANSFORM_FEEDBACK_BUFFER, i, buffer, VERTEX_BYTES * first, VERTEX_BYTES * count)
      })
      gl.beginTransformFeedback(gl.POINTS)
      gl.drawArrays(gl.POINTS, first, count)
      gl.endTransformFeedback()
    }
    gl.disable(gl.RASTERIZER_DISCARD)
    posed.forEach((_, i) => {
      gl.bindBufferBase(gl.TRANSFORM_FEEDBACK_BUFFER, i, null)
    })
    // three takes its own for still bound.
    gl.bindVertexArray(before)
  }

  /** With all that was written since. */
  private buffersOf(geometry: SitterGeometry): Buffers {
    const known = this.made.get(geometry)
    const buffers = known ?? this.make(geometry)
    const { gl } = this
    if (known)
      for (const { name, from, count } of geometry.written) {
        gl.bindBuffer(gl.ARRAY_BUFFER, known.atRest[POSED.indexOf(name)])
        gl.bufferSubData(gl.ARRAY_BUFFER, 4 * from, geometry.atRest[name], from, count)
      }
    geometry.written = []
    return buffers
  }

  private make(geometry: SitterGeometry): Buffers {
    const { gl } = this
    const inputs = gl.createVertexArray()
    gl.bindVertexArray(inputs)
    const input = (name: string, values: Float32Array, size: number): WebGLBuffer => {
      const buffer = gl.createBuffer()
      gl.bindBuffer(gl.ARRAY_BUFFER, buffer)
      gl.bufferData(gl.ARRAY_BUFFER, values, gl.DYNAMIC_DRAW)
      const place = gl.getAttribLocation(this.program, name)
      gl.enableVertexAttribArray(place)
      gl.vertexAttribPointer(place, size, gl.FLOAT, false, 0, 0)
      return buffer
    }
    const atRest = POSED.map((name) => input(name, geometry.atRest[name], 3))
    const headWeight = input('headWeight', geometry.headWeight, 1)
    const posed = POSED.map((name) => {
      const buffer = gl.createBuffer()
      gl.bindBuffer(gl.ARRAY_BUFFER, buffer)
      gl.bufferData(gl.ARRAY_BUFFER, VERTEX_BYTES * geometry.vertexCount, gl.DYNAMIC_COPY)
      const attribute = geometry.getAttribute(name) as unknown as GLBufferAttribute
      attribute.setBuffer(buffer)
      attribute.needsUpdate = true
      return buffer
    })
    gl.bindBuffer(gl.ARRAY_BUFFER, null)
    const buffers = { inputs, atRest, headWeight, posed }
    this.made.set(geometry, buffers)
    geometry.addEventListener('dispose', () => this.forget(geometry))
    return buffers
  }

  /** What is posed three deletes with the geometry. */
  private forget(geometry: SitterGeometry): void {
    const buffers = this.made.get(geometry)
    if (!buffers) return
    for (const buffer of [...buffers.atRest, buffers.headWeight]) this.gl.deleteBuffer(buffer)
    this.gl.deleteVertexArray(buffers.inputs)
    this.made.delete(geometry)
  }

  dispose(): void {
    for (const geometry of this.made.keys()) this.forget(geometry)
    this.gl.deleteProgram(this.program)
    this.nowhere.dispose()
  }
}

function linked(gl: WebGL2RenderingContext): WebGLProgram {
  const program = gl.createProgram()
  const texts = [
    [gl.VERTEX_SHADER, vertex],
    [gl.FRAGMENT_SHADER, FRAGMENT],
  ] as const
  for (const [kind, text] of texts) {
    const shader = gl.createShader(kind)!
    gl.shaderSource(shader, `#version 300 es\n${shaderText(text)}`)
    gl.compileShader(shader)
    gl.attachShader(program, shader)
    gl.deleteShader(shader)
  }
  gl.transformFeedbackVaryings(program, KEPT, gl.SEPARATE_ATTRIBS)
  gl.linkProgram(program)
  return program
}
