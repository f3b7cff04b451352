import { zlibSync } from 'fflate'
import { ByteWriter } from './bytes'
import { crc32 } from './crc32'
import { inflateWithin } from './inflate'
import { isPng, SIGNATURE } from './is-png'

/**
 * PNG [W3C PNG, third edition]: 8-bit RGB pictures with text in iTXt chunks, which hold UTF-8 (tEXt is Latin-1 only).
 */

export interface RgbPicture {
  /** Pixels. */
  readonly width: number
  readonly height: number
  /** sRGB bytes, three a pixel, rows from the top. */
  readonly rgb: Uint8Array | Uint8ClampedArray
}

export interface PngChunk {
  /** Four letters. */
  readonly type: string
  readonly data: Uint8Array
}

/** Perceptual intent: the picture is sRGB (chunk sRGB, §11.3.2.5). */
const SRGB_INTENT = 0

/** A PNG file. texts: keyword (1 to 79 Latin-1 characters) to text; the same input always gives the same bytes. */
export function writePng(picture: RgbPicture, texts: Readonly<Record<string, string>> = {}): Uint8Array<ArrayBuffer> {
  const { width, height, rgb } = picture
  if (rgb.length !== width * height * 3)
    throw new Error(`exchange.writePng: ${width}×${height} pixels need ${width * height * 3} bytes, got ${rgb.length}`)
  const header = new ByteWriter(false).u32(width).u32(height).u8(8).u8(2).u8(0).u8(0).u8(0).done()
  return joinChunks([
    { type: 'IHDR', data: header },
    { type: 'sRGB', data: Uint8Array.of(SRGB_INTENT) },
    ...Object.entries(texts).map(([keyword, text]) => textChunk(keyword, text)),
    { type: 'IDAT', data: zlibSync(filteredRows(picture), { level: 6 }) },
    { type: 'IEND', data: new Uint8Array(0) },
  ])
}

/** Every row as its difference from the row above (filter 2, §9.2): renders pack to about half of unfiltered. */
function filteredRows({ width, height, rgb }: RgbPicture): Uint8Array {
  const stride = width * 3
  const out = new Uint8Array(height * (stride + 1))
  for (let y = 0; y < height; y++) {
    const to = y * (stride + 1)
    out[to] = 2
    for (let i = 0; i < stride; i++) out[to + 1 + i] = rgb[y * stride + i] - (y > 0 ? rgb[(y - 1) * stride + i] : 0)
  }
  return out
}

/** iTXt, §11.3.3.4: keyword, zero, compressed 1, method 0, no language, no translated keyword, zlib of the UTF-8. */
function textChunk(keyword: string, text: string): PngChunk {
  if (!/^[\x20-\x7e\xa1-\xff]{1,79}$/.test(keyword))
    throw new Error(`exchange.textChunk: keyword must be 1 to 79 Latin-1 characters, got ${JSON.stringify(keyword)}`)
  const latin1 = Uint8Array.from(keyword, (letter) => letter.charCodeAt(0))
  const packed = zlibSync(new TextEncoder().encode(text), { level: 9 })
  return { type: 'iTXt', data: new ByteWriter(false).raw(latin1).u8(0).u8(1).u8(0).u8(0).u8(0).raw(packed).done() }
}

function joinChunks(chunks: readonly PngChunk[]): Uint8Array<ArrayBuffer> {
  const out = new ByteWriter(false).raw(Uint8Array.from(SIGNATURE))
  for (const { type, data } of chunks) {
    const named = new ByteWriter(false).raw(new TextEncoder().encode(type)).raw(data).done()
    out.u32(data.length).raw(named).u32(crc32(named))
  }
  return out.done()
}

/** The chunks of a PNG in order. Throws with the place where the file is cut off or a checksum fails. */
export function readPngChunks(bytes: Uint8Array): readonly PngChunk[] {
  if (!isPng(bytes)) throw new Error('exchange.readPngChunks: the file does not begin as a PNG does')
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const chunks: PngChunk[] = []
  let at = SIGNATURE.length
  while (at < bytes.length) {
    const size = at + 12 <= bytes.length ? view.getUint32(at) : Number.POSITIVE_INFINITY
    if (at + 12 + size > bytes.length) throw new Error(`exchange.readPngChunks: the file is cut off at byte ${at}`)
    const named = bytes.subarray(at + 4, at + 8 + size)
    const type = String.fromCharCode(...named.subarray(0, 4))
    if (crc32(named) !== view.getUint32(at + 8 + size))
      throw new Error(`exchange.readPngChunks: chunk ${type} at byte ${at} is damaged (its checksum fails)`)
    chunks.push({ type, data: named.subarray(4) })
    at += 12 + size
    if (type === 'IEND') break
  }
  return chunks
}

/** Largest text that is unpacked, bytes: a few kilobytes can unpack to gigabytes. */
const LARGEST_TEXT = 16 * 2 ** 20

/** The text under a keyword in the file's iTXt chunks; null: there is none. Throws on a damaged file. */
export function readPngText(bytes: Uint8Array, keyword: string): string | null {
  for (const { type, data } of readPngChunks(bytes)) {
    if (type !== 'iTXt') continue
    const text = textOf(data, keyword)
    if (text !== null) return text
  }
  return null
}

function textOf(data: Uint8Array, keyword: string): string | null {
  const afterKeyword = data.indexOf(0)
  if (afterKeyword < 0 || String.fromCharCode(...data.subarray(0, afterKeyword)) !== keyword) return null
  const afterLanguage = data.indexOf(0, afterKeyword + 3)
  const afterTranslated = data.indexOf(0, afterLanguage + 1)
  if (afterLanguage < 0 || afterTranslated < 0) throw new Error(`exchange.textOf: the text "${keyword}" is damaged`)
  const body = data.subarray(afterTranslated + 1)
  const plain = data[afterKeyword + 1] === 1 ? inflateWithin(body, LARGEST_TEXT) : body
  return new TextDecoder('utf-8', { fatal: true }).decode(plain)
}
