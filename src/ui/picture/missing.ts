import { describeSupport } from '../../render'

/** What went wrong while drawing, for the person before the screen. */
export const stopped = (error: unknown): string =>
  `The picture stopped: ${error instanceof Error ? error.message : String(error)} Readings, plan and elevation work as before. Undo the last step, or load the page again.`

/**
 * null: nothing. Asked on a canvas of its own, as a context keeps the attributes it was first asked for with; and both in
 * the page, where graphics may be switched off, and in the thread that draws, which may have none.
 */
export function whatIsMissing(canvas: HTMLCanvasElement | OffscreenCanvas): string | null {
  const gl = canvas.getContext('webgl2') as WebGL2RenderingContext | null
  const missing = describeSupport(gl)
  gl?.getExtension('WEBGL_lose_context')?.loseContext()
  return missing
}
