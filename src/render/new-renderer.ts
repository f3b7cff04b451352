import { WebGLRenderer } from 'three'

/** On a canvas of its own, set up as all passes expect it. Throws with the driver's words where it refuses a program. */
export function newRenderer(canvas: HTMLCanvasElement | OffscreenCanvas, width: number, height: number): WebGLRenderer {
  const renderer = new WebGLRenderer({
    canvas,
    antialias: false,
    depth: false,
    preserveDrawingBuffer: true,
    powerPreference: 'high-performance',
  })
  renderer.setPixelRatio(1)
  renderer.setSize(width, height, false)
  renderer.autoClear = false
  renderer.setClearColor(0, 0)
  renderer.debug.onShaderError = (gl, _, vertex, fragment) => {
    const why = [vertex, fragment].map((shader) => gl.getShaderInfoLog(shader)).join(' ')
    throw new Error(`render: this graphics card's driver refuses a program of the picture. It says: ${why.trim()}`)
  }
  return renderer
}
