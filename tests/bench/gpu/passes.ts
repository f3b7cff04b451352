/**
 * Times every draw call on the graphics card with timer queries and adds them up by what they draw into. Knows a pass
 * by its framebuffer: three colours are the G-buffer, a depth texture the shadow maps, a depth renderbuffer the light
 * that bounced onto the sitter, the canvas the recombination, anything else shading.
 */
export type PassName = 'g-buffer' | 'shadow maps' | 'bounce on the sitter' | 'shading' | 'recombination'

export interface PassTime {
  readonly draws: number
  readonly ms: number
}

interface TimerExtension {
  readonly TIME_ELAPSED_EXT: number
  readonly GPU_DISJOINT_EXT: number
}

const DRAWS = ['drawElements', 'drawArrays', 'drawElementsInstanced', 'drawArraysInstanced', 'clear'] as const

/** Null where the browser has no timer queries. */
export function passTimer(gl: WebGL2RenderingContext): PassTimer | null {
  const extension = gl.getExtension('EXT_disjoint_timer_query_webgl2') as TimerExtension | null
  return extension && new PassTimer(gl, extension)
}

export class PassTimer {
  private readonly pending: { readonly pass: PassName; readonly query: WebGLQuery }[] = []
  private readonly names = new WeakMap<WebGLFramebuffer, PassName>()
  private bound: WebGLFramebuffer | null = null

  constructor(
    private readonly gl: WebGL2RenderingContext,
    private readonly extension: TimerExtension,
  ) {
    this.bound = gl.getParameter(gl.DRAW_FRAMEBUFFER_BINDING)
    const bind = gl.bindFramebuffer.bind(gl)
    gl.bindFramebuffer = (target, framebuffer) => {
      if (target !== gl.READ_FRAMEBUFFER) this.bound = framebuffer
      bind(target, framebuffer)
    }
    const methods = gl as unknown as Record<string, (...args: unknown[]) => void>
    for (const name of DRAWS) {
      const draw = methods[name].bind(gl)
      methods[name] = (...args) => this.timed(() => draw(...args))
    }
  }

  private timed(draw: () => void): void {
    const { gl, extension } = this
    const query = gl.createQuery()
    gl.beginQuery(extension.TIME_ELAPSED_EXT, query)
    draw()
    gl.endQuery(extension.TIME_ELAPSED_EXT)
    this.pending.push({ pass: this.passOf(this.bound), query })
  }

  private passOf(framebuffer: WebGLFramebuffer | null): PassName {
    if (!framebuffer) return 'recombination'
    const known = this.names.get(framebuffer)
    if (known) return known
    const { gl } = this
    const kind = (attachment: number) =>
      gl.getFramebufferAttachmentParameter(gl.FRAMEBUFFER, attachment, gl.FRAMEBUFFER_ATTACHMENT_OBJECT_TYPE)
    const depth = kind(gl.DEPTH_ATTACHMENT)
    const name =
      kind(gl.COLOR_ATTACHMENT1) !== gl.NONE
        ? 'g-buffer'
        : depth === gl.TEXTURE
          ? 'shadow maps'
          : depth === gl.RENDERBUFFER
            ? 'bounce on the sitter'
            : 'shading'
    this.names.set(framebuffer, name)
    return name
  }

  /** Sums since the last time it was asked. Null where the clock of the card was disturbed. */
  async take(): Promise<Partial<Record<PassName, PassTime>> | null> {
    const { gl, extension } = this
    const queries = this.pending.splice(0)
    const sums: Partial<Record<PassName, PassTime>> = {}
    for (const { pass, query } of queries) {
      while (!gl.getQueryParameter(query, gl.QUERY_RESULT_AVAILABLE)) await new Promise((wait) => setTimeout(wait, 1))
      const ms = gl.getQueryParameter(query, gl.QUERY_RESULT) / 1e6
      const sum = sums[pass] ?? { draws: 0, ms: 0 }
      sums[pass] = { draws: sum.draws + 1, ms: sum.ms + ms }
      gl.deleteQuery(query)
    }
    return gl.getParameter(extension.GPU_DISJOINT_EXT) ? null : sums
  }
}
