import { describeSupport } from '../../render'

/** What went wrong while drawing, for the person before the screen. */
export const stopped = (error: unknown): string =>
  `The picture stopped: ${error instanceof Error ? error.message : String(error)} Readings, plan and elevation work as before. Undo the last step, or load the page again.`

/** Asked on a canvas of its own: a context keeps the attributes it was first asked for with. */
export function whatIsMissing(): string | null {
  const canvas = document.createElement('canvas')
  const gl = canvas.getContext('webgl2')
  const missing = describeSupport(gl)
  gl?.getExtension('WEBGL_lose_context')?.loseContext()
  return missing
}
