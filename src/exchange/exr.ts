import { zlibSync } from 'fflate'
import { ByteWriter } from './bytes'

/**
 * OpenEXR [OpenEXR file layout, version 2]: one part, scan lines, ZIP in blocks of 16 lines, 32-bit floats. Several
 * layers are channels with a dot in their names: 'A.R', 'A.G', 'A.B' ("Layers" in the same document).
 */

export interface ExrLayer {
  /** '' for the plain channels R, G, B that every program shows; otherwise the part before the dot. */
  readonly name: string
  /** Linear sRGB, three floats a pixel, rows from the top. */
  readonly rgb: Float32Array
}

export interface ExrPicture {
  /** Pixels. */
  readonly width: number
  readonly height: number
  readonly layers: readonly ExrLayer[]
  /** String attributes of the header: name to text. */
  readonly texts?: Readonly<Record<string, string>>
}

const MAGIC = 20000630
const VERSION = 2
/** Bit 10 of the version field: names of up to 255 bytes. */
const LONG_NAMES = 0x400
const FLOAT = 2
const ZIP = 3
const LINES_A_BLOCK = 16

/** ITU-R BT.709 primaries and D65, as x, y of red, green, blue, white. */
const CHROMATICITIES = [0.64, 0.33, 0.3, 0.6, 0.15, 0.06, 0.3127, 0.329]

interface Channel {
  readonly name: string
  readonly rgb: Float32Array
  /** 0 red, 1 green, 2 blue. */
  readonly band: number
}

/** An OpenEXR file. Throws where a layer has the wrong number of values or two layers have one name. */
export function writeExr(picture: ExrPicture): Uint8Array<ArrayBuffer> {
  const channels = channelsOf(picture)
  const out = new ByteWriter(true)
  writeHeader(out, picture, channels)
  const blocks: Uint8Array[] = []
  for (let y = 0; y < picture.height; y += LINES_A_BLOCK)
    blocks.push(packed(scanLines(picture, channels, y, Math.min(y + LINES_A_BLOCK, picture.height))))
  writeOffsets(out, blocks)
  blocks.forEach((block, i) => {
    out
      .i32(i * LINES_A_BLOCK)
      .u32(block.length)
      .raw(block)
  })
  return out.done()
}

/** All channels in the order that the format asks for: by the bytes of their names. */
function channelsOf({ width, height, layers }: ExrPicture): readonly Channel[] {
  if (!(Number.isInteger(width) && Number.isInteger(height) && width > 0 && height > 0))
    throw new Error(`exchange.writeExr: expected whole numbers of pixels, got ${width}×${height}`)
  const names = new Set<string>()
  const channels = layers.flatMap(({ name, rgb }) => {
    if (names.has(name)) throw new Error(`exchange.writeExr: two layers are named "${name}"`)
    if (!/^[\x21-\x7e]{0,240}$/.test(name))
      throw new Error(`exchange.writeExr: layer name "${name}" is not plain ASCII without spaces`)
    if (rgb.length !== width * height * 3)
      throw new Error(`exchange.writeExr: layer "${name}" needs ${width * height * 3} values, got ${rgb.length}`)
    names.add(name)
    return ['R', 'G', 'B'].map((letter, band) => ({ name: name ? `${name}.${letter}` : letter, rgb, band }))
  })
  return channels.sort((a, b) => (a.name < b.name ? -1 : 1))
}

function writeHeader(out: ByteWriter, { width, height, texts = {} }: ExrPicture, channels: readonly Channel[]): void {
  const longNames = [...channels.map(({ name }) => name), ...Object.keys(texts)].some((name) => name.length > 31)
  out.u32(MAGIC).u32(VERSION | (longNames ? LONG_NAMES : 0))
  const attribute = (name: string, type: string, value: Uint8Array) =>
    out.zeroEnded(name).zeroEnded(type).u32(value.length).raw(value)
  const window = new ByteWriter(true)
    .i32(0)
    .i32(0)
    .i32(width - 1)
    .i32(height - 1)
    .done()
  attribute('channels', 'chlist', channelList(channels))
  attribute('chromaticities', 'chromaticities', floats(CHROMATICITIES))
  attribute('compression', 'compression', Uint8Array.of(ZIP))
  attribute('dataWindow', 'box2i', window)
  attribute('displayWindow', 'box2i', window)
  attribute('lineOrder', 'lineOrder', Uint8Array.of(0))
  attribute('pixelAspectRatio', 'float', floats([1]))
  attribute('screenWindowCenter', 'v2f', floats([0, 0]))
  attribute('screenWindowWidth', 'float', floats([1]))
  for (const [name, text] of Object.entries(texts)) attribute(name, 'string', new TextEncoder().encode(text))
  out.u8(0)
}

function channelList(channels: readonly Channel[]): Uint8Array {
  const out = new ByteWriter(true)
  // Name, pixel type, "linear" flag with three reserved bytes, sampling along x and y.
  for (const { name } of channels) out.zeroEnded(name).i32(FLOAT).u32(0).i32(1).i32(1)
  return out.u8(0).done()
}

function floats(values: readonly number[]): Uint8Array {
  const out = new ByteWriter(true)
  for (const value of values) out.f32(value)
  return out.done()
}

/** Where each block begins, from the start of the file. */
function writeOffsets(out: ByteWriter, blocks: readonly Uint8Array[]): void {
  let at = out.length + blocks.length * 8
  for (const block of blocks) {
    out.u64(at)
    at += 8 + block.length
  }
}

/** Lines from y to before `end`: line by line, in each the whole row of one channel after the other. */
function scanLines({ width }: ExrPicture, channels: readonly Channel[], y: number, end: number): Uint8Array {
  const bytes = new Uint8Array((end - y) * channels.length * width * 4)
  const view = new DataView(bytes.buffer)
  let at = 0
  for (let line = y; line < end; line++)
    for (const { rgb, band } of channels)
      for (let x = 0; x < width; x++, at += 4) view.setFloat32(at, rgb[(line * width + x) * 3 + band], true)
  return bytes
}

/** ZIP of the format: even bytes before odd ones, each as its difference from the last plus 128, then zlib; plain where that is no shorter. */
function packed(raw: Uint8Array): Uint8Array {
  const split = new Uint8Array(raw.length)
  const half = Math.ceil(raw.length / 2)
  for (let i = 0; i < raw.length; i++) split[(i & 1 ? half : 0) + (i >> 1)] = raw[i]
  for (let i = split.length - 1; i > 0; i--) split[i] = split[i] - split[i - 1] + 128
  const zipped = zlibSync(split, { level: 4 })
  return zipped.length < raw.length ? zipped : raw
}
