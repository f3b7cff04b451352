import { codeFromLinear, pictureValueFromLuminance } from '../../camera'
import type { SeenRoom } from '../../readings'

export interface Exposing {
  readonly factorStops: number
  readonly fNumber: number
  readonly iso: number
}

/**
 * Grey codes of the disc's cells, as the camera would record them at the picture's exposure. Cells beyond the rim take
 * the nearest tone within it, so that an even enlargement does not darken the edge.
 */
export function tonesOf(
  { side, thing, luminance }: SeenRoom,
  { factorStops, fNumber, iso }: Exposing,
): Uint8ClampedArray {
  const gain = 2 ** factorStops
  const codes = Uint8ClampedArray.from(luminance, (value) =>
    codeFromLinear(pictureValueFromLuminance(value * gain, iso, fNumber), 'plain'),
  )
  const middle = (side - 1) / 2
  return codes.map((code, cell) => {
    if (thing[cell] >= 0) return code
    const [x, y] = [(cell % side) - middle, Math.floor(cell / side) - middle]
    const k = (side / 2 - 1) / Math.hypot(x, y)
    return codes[Math.round(middle + y * k) * side + Math.round(middle + x * k)]
  })
}

/** Draws grey codes into a canvas of as many pixels. */
export function paintTones(canvas: HTMLCanvasElement, codes: Uint8ClampedArray, side: number): void {
  canvas.width = side
  canvas.height = side
  const context = canvas.getContext('2d')
  if (!context) return
  const image = context.createImageData(side, side)
  codes.forEach((code, i) => {
    image.data.set([code, code, code, 255], 4 * i)
  })
  context.putImageData(image, 0, 0)
}
