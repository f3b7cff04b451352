import { inflateWithin } from './inflate'
import { type RgbPicture, readPngChunks } from './png'

/** Samples a pixel of each colour type, and which of them are red, green and blue; alpha, if any, is the last [W3C PNG §6.1]. */
const TYPES: Readonly<
  Record<number, { readonly channels: number; readonly rgb: readonly number[]; readonly alpha: boolean }>
> = {
  0: { channels: 1, rgb: [0, 0, 0], alpha: false },
  2: { channels: 3, rgb: [0, 1, 2], alpha: false },
  4: { channels: 2, rgb: [0, 0, 0], alpha: true },
  6: { channels: 4, rgb: [0, 1, 2], alpha: true },
}
/** Larger pictures are none that a sheet has room for, pixels. */
const MOST_PIXELS = 64 * 2 ** 20
const PAPER = 255

/**
 * The pixels of a PNG of 8 or 16 bits a sample in grey or colour, over white where it is clear. Throws on a damaged file, on one with a
 * palette, few bits or interlacing, and on more than 64 million pixels.
 */
export function readPng(bytes: Uint8Array): RgbPicture {
  const chunks = readPngChunks(bytes)
  const head = chunks[0]?.type === 'IHDR' ? chunks[0].data : null
  if (head?.length !== 13) throw new Error('exchange.readPng: the file has no header')
  const view = new DataView(head.buffer, head.byteOffset)
  const [width, height] = [view.getUint32(0), view.getUint32(4)]
  const [bits, colour, interlaced] = [head[8]!, head[9]!, head[12]!]
  const type = TYPES[colour]
  if (!type || (bits !== 8 && bits !== 16) || interlaced !== 0)
    throw new Error('exchange.readPng: expected grey or colour of 8 or 16 bits, not interlaced, without a palette')
  if (width * height === 0 || width * height > MOST_PIXELS)
    throw new Error(`exchange.readPng: expected 1 to ${MOST_PIXELS} pixels, got ${width} × ${height}`)
  const step = (type.channels * bits) / 8
  const rows = unfiltered(packedOf(chunks, (width * step + 1) * height), { width, height, step })
  const rgb = new Uint8Array(3 * width * height)
  for (let i = 0; i < width * height; i++) {
    // Of two bytes the first is the high one.
    const at = (channel: number) => rows[i * step + (channel * bits) / 8]!
    const cover = type.alpha ? at(type.channels - 1) / 255 : 1
    for (const [j, channel] of type.rgb.entries()) rgb[3 * i + j] = Math.round(PAPER + (at(channel) - PAPER) * cover)
  }
  return { width, height, rgb }
}

function packedOf(chunks: ReturnType<typeof readPngChunks>, size: number): Uint8Array {
  const parts = chunks.filter(({ type }) => type === 'IDAT').map(({ data }) => data)
  const packed = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const part of parts) {
    packed.set(part, at)
    at += part.length
  }
  const rows = inflateWithin(packed, size)
  if (rows.length !== size) throw new Error(`exchange.readPng: expected ${size} bytes of rows, got ${rows.length}`)
  return rows
}

/** Rows without their filters [W3C PNG §9.2]; step: bytes a pixel. */
function unfiltered(
  rows: Uint8Array,
  { width, height, step }: { readonly width: number; readonly height: number; readonly step: number },
): Uint8Array {
  const stride = width * step
  const out = new Uint8Array(stride * height)
  for (let y = 0; y < height; y++) {
    const [from, to] = [y * (stride + 1), y * stride]
    const predict = PREDICTORS[rows[from]!]
    if (!predict) throw new Error(`exchange.readPng: row ${y} has filter ${rows[from]}, which there is not`)
    for (let i = 0; i < stride; i++) {
      const left = i < step ? 0 : out[to + i - step]!
      const up = y === 0 ? 0 : out[to - stride + i]!
      const both = i < step || y === 0 ? 0 : out[to - stride + i - step]!
      out[to + i] = rows[from + 1 + i]! + predict(left, up, both)
    }
  }
  return out
}

type Predictor = (left: number, up: number, both: number) => number
const PREDICTORS: readonly Predictor[] = [
  () => 0,
  (left) => left,
  (_, up) => up,
  (left, up) => (left + up) >> 1,
  (left, up, both) => {
    const [a, b, c] = [Math.abs(up - both), Math.abs(left - both), Math.abs(left + up - 2 * both)]
    return a <= b && a <= c ? left : b <= c ? up : both
  },
]
