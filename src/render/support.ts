/** null when the picture can be drawn; else a sentence for the photographer. The numbers work without it. */
export function describeSupport(gl: WebGL2RenderingContext | null): string | null {
  if (!gl)
    return 'This browser offers no WebGL2, so the picture cannot be drawn. The numbers, plan and sheet work as usual. Try another browser, or turn on graphics acceleration in its settings.'
  if (!gl.getExtension('EXT_color_buffer_float') || !canDrawFloats(gl))
    return 'This device cannot draw into 32-bit float textures, which the picture sums its light in. The numbers, plan and sheet work as usual. Try a newer device or browser.'
  return null
}

/** By drawing and reading back: an extension's name alone has proved to be no promise. */
function canDrawFloats(gl: WebGL2RenderingContext): boolean {
  const texture = gl.createTexture()
  const framebuffer = gl.createFramebuffer()
  gl.bindTexture(gl.TEXTURE_2D, texture)
  gl.texStorage2D(gl.TEXTURE_2D, 1, gl.RGBA32F, 1, 1)
  gl.bindFramebuffer(gl.FRAMEBUFFER, framebuffer)
  gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, texture, 0)
  const value = new Float32Array(4)
  // More than half float holds, and not a whole number.
  const probe = 70000.5
  if (gl.checkFramebufferStatus(gl.FRAMEBUFFER) === gl.FRAMEBUFFER_COMPLETE) {
    gl.clearBufferfv(gl.COLOR, 0, [probe, 0, 0, 1])
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.FLOAT, value)
  }
  gl.bindFramebuffer(gl.FRAMEBUFFER, null)
  gl.bindTexture(gl.TEXTURE_2D, null)
  gl.deleteFramebuffer(framebuffer)
  gl.deleteTexture(texture)
  return value[0] === probe
}

/** Names of what draws with the processor in a graphics card's stead. */
const SOFTWARE = /swiftshader|llvmpipe|softpipe|software|basic render/i

/** Does the processor draw? Where a browser won't tell: no. */
export function isSoftware(gl: WebGLRenderingContext | WebGL2RenderingContext): boolean {
  const info = gl.getExtension('WEBGL_debug_renderer_info')
  return SOFTWARE.test(String(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER)))
}
