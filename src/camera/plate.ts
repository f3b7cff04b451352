import { luminanceFromSrgb } from '../photometry'
import { SENSOR_CLIP, type Tally, Tallying } from './tally'

/** A picture as exposed linear values (1 = perfect white in metered light), four floats a pixel, rows from the top. */
export interface LinearPicture {
  readonly width: number
  readonly height: number
  readonly rgba: Float32Array
  /** 1 where a pixel shows a sitter; left out: nowhere. */
  readonly sitters?: Uint8Array | undefined
}

/** A picture counted out in cells, by which exposure is judged: rows from the top. */
export interface Plate {
  readonly columns: number
  readonly rows: number
  /** Mean of a cell's pixels: red, green, blue. Not cut off at white. */
  readonly linear: Float32Array
  /** Largest channel of any of its pixels. */
  readonly peak: Float32Array
  /** Share of its pixels that show a sitter. */
  readonly sitter: Float32Array
  /** Of all pixels. */
  readonly tally: Tally
}

/** Cells across a plate: half a spot meter's degree in a head-and-shoulders picture, 13° across. */
export const PLATE_COLUMNS = 160

/** Cells are as nearly square as whole pixels allow; a picture with fewer pixels than columns has a cell a pixel. */
export function plateOf({ width, height, rgba, sitters }: LinearPicture, mostColumns = PLATE_COLUMNS): Plate {
  if (rgba.length !== 4 * width * height)
    throw new Error(
      `camera.plateOf: expected ${4 * width * height} floats for ${width} × ${height}, got ${rgba.length}`,
    )
  const columns = Math.min(mostColumns, width)
  const rows = Math.min(height, Math.max(1, Math.round((columns * height) / width)))
  const linear = new Float32Array(3 * columns * rows)
  const peak = new Float32Array(columns * rows)
  const sitter = new Float32Array(columns * rows)
  const count = new Uint32Array(columns * rows)
  const tallying = new Tallying()
  for (let y = 0; y < height; y++) {
    const row = Math.floor((y * rows) / height) * columns
    for (let x = 0; x < width; x++) {
      const cell = row + Math.floor((x * columns) / width)
      const pixel = y * width + x
      const [r, g, b] = [rgba[4 * pixel], rgba[4 * pixel + 1], rgba[4 * pixel + 2]]
      linear[3 * cell] += r
      linear[3 * cell + 1] += g
      linear[3 * cell + 2] += b
      peak[cell] = Math.max(peak[cell], r, g, b)
      if (sitters) sitter[cell] += sitters[pixel]
      count[cell]++
      tallying.add(r, g, b)
    }
  }
  count.forEach((pixels, cell) => {
    for (let band = 0; band < 3; band++) linear[3 * cell + band] /= pixels
    sitter[cell] /= pixels
  })
  return { columns, rows, linear, peak, sitter, tally: tallying.done() }
}

/** Luminance of a cell, exposed linear. */
export const cellLuminance = ({ linear }: Plate, cell: number): number =>
  luminanceFromSrgb([linear[3 * cell], linear[3 * cell + 1], linear[3 * cell + 2]])

/** The cell under a place of the picture: shares of its width and height from the upper left corner, 0 to 1. */
export const cellAt = ({ columns, rows }: Pick<Plate, 'columns' | 'rows'>, x: number, y: number): number =>
  Math.min(rows - 1, Math.max(0, Math.floor(y * rows))) * columns +
  Math.min(columns - 1, Math.max(0, Math.floor(x * columns)))

/** From which largest channel on a place is marked. */
export const CLIPS_FROM = { display: 1, sensor: SENSOR_CLIP } as const
