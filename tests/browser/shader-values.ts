import { expect } from 'vitest'
import { browserWith } from './browsers'

/** Formulas of a shader, computed by the browser's GPU case by case. */
export const CASES = 4096
/** Inputs of a case: this many vec4, one row of texels. */
const WIDTH = 8

/** Runs one expression over all cases; in0 … in7 are its inputs. snippet: GLSL of what it names. */
export async function onGpu(
  snippet: string,
  expression: string,
  inputs: readonly (readonly number[])[],
): Promise<number[]> {
  const page = await (await browserWith()).newPage()
  const data = inputs.flatMap((row) => [...row, ...new Array(WIDTH * 4 - row.length).fill(0)])
  const fragment = `#version 300 es
    precision highp float; precision highp int; precision highp sampler2D;
    uniform sampler2D data; out vec4 result;
    ${snippet}
    void main() {
      int row = int(gl_FragCoord.y) * 64 + int(gl_FragCoord.x);
      ${Array.from({ length: WIDTH }, (_, k) => `vec4 in${k} = texelFetch(data, ivec2(${k}, row), 0);`).join('\n')}
      result = vec4(${expression}, 0.0, 0.0, 1.0);
    }`
  const values = await page.evaluate(
    ({ fragment, data, width, cases }) => {
      const gl = document.createElement('canvas').getContext('webgl2') as WebGL2RenderingContext
      if (!gl?.getExtension('EXT_color_buffer_float')) throw new Error('no float render target in this browser')
      const program = gl.createProgram()
      const attach = (kind: number, text: string) => {
        const shader = gl.createShader(kind) as WebGLShader
        gl.shaderSource(shader, text)
        gl.compileShader(shader)
        if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS)) throw new Error(gl.getShaderInfoLog(shader) ?? 'compile')
        gl.attachShader(program, shader)
      }
      attach(
        gl.VERTEX_SHADER,
        `#version 300 es
        void main() { gl_Position = vec4(vec2(gl_VertexID == 1 ? 3 : -1, gl_VertexID == 2 ? 3 : -1), 0, 1); }`,
      )
      attach(gl.FRAGMENT_SHADER, fragment)
      gl.linkProgram(program)
      const texture = (w: number, h: number, pixels: Float32Array | null) => {
        const made = gl.createTexture()
        gl.bindTexture(gl.TEXTURE_2D, made)
        gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST)
        gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST)
        gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA32F, w, h, 0, gl.RGBA, gl.FLOAT, pixels)
        return made
      }
      const rows = cases / 64
      const target = texture(64, rows, null)
      gl.bindFramebuffer(gl.FRAMEBUFFER, gl.createFramebuffer())
      gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, target, 0)
      texture(width, cases, new Float32Array(data))
      gl.viewport(0, 0, 64, rows)
      gl.useProgram(program)
      gl.drawArrays(gl.TRIANGLES, 0, 3)
      const pixels = new Float32Array(cases * 4)
      gl.readPixels(0, 0, 64, rows, gl.RGBA, gl.FLOAT, pixels)
      return Array.from({ length: cases }, (_, i) => pixels[i * 4])
    },
    { fragment, data, width: WIDTH, cases: CASES },
  )
  await page.close()
  return values
}

export function expectClose(gpu: readonly number[], cpu: readonly number[], note: (i: number) => string) {
  expect(cpu.filter((value) => value !== 0).length, 'too many dark cases to prove anything').toBeGreaterThan(CASES / 8)
  cpu.forEach((value, i) => {
    const off = Math.abs(gpu[i] - value)
    if (!(off <= 1e-4 * Math.abs(value) + 1e-7)) throw new Error(`${note(i)}: shader ${gpu[i]}, TypeScript ${value}`)
  })
}
