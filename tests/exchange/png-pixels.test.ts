/** Pixels of PNGs: filters, colour types and depths written out here by the standard's formulas (PNG third edition §9.2), a real file against png-js. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { crc32, deflateSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { readPng, writePng } from '../../src/exchange'

function chunk(type: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type), data])
  const frame = Buffer.alloc(8)
  frame.writeUInt32BE(data.length)
  frame.writeUInt32BE(crc32(named), 4)
  return Buffer.concat([frame.subarray(0, 4), named, frame.subarray(4)])
}

interface Told {
  readonly width: number
  readonly height: number
  readonly bits: number
  readonly colour: number
  readonly interlaced?: number
  /** Bytes of pixels, rows from the top. */
  readonly rows: readonly number[]
  readonly step: number
}

/** Row y has filter y mod 5, so that all five come. */
function png({ width, height, bits, colour, interlaced = 0, rows, step }: Told): Uint8Array {
  const head = Buffer.alloc(13)
  head.writeUInt32BE(width)
  head.writeUInt32BE(height, 4)
  head.set([bits, colour, 0, 0, interlaced], 8)
  const stride = width * step
  const filtered: number[] = []
  for (let y = 0; y < height; y++) {
    filtered.push(y % 5)
    for (let i = 0; i < stride; i++) {
      const at = (dx: number, dy: number) => (i - dx < 0 || y - dy < 0 ? 0 : rows[(y - dy) * stride + i - dx]!)
      const [a, b, c] = [at(step, 0), at(0, 1), at(step, 1)]
      const p = a + b - c
      const [pa, pb, pc] = [Math.abs(p - a), Math.abs(p - b), Math.abs(p - c)]
      const paeth = pa <= pb && pa <= pc ? a : pb <= pc ? b : c
      filtered.push((at(0, 0) - [0, a, b, Math.floor((a + b) / 2), paeth][y % 5]!) & 255)
    }
  }
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
  const body = [
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Uint8Array.from(filtered))),
    chunk('IEND', Buffer.alloc(0)),
  ]
  return new Uint8Array(Buffer.concat([signature, ...body]))
}
const noise = (count: number) => Array.from({ length: count }, (_, i) => (i * 97 + (i >> 2) * 31 + (i % 7) * 13) % 256)
const size = { width: 7, height: 11 }

test('colour of 8 bits, under all five filters', () => {
  const rows = noise(7 * 11 * 3)
  expect([...readPng(png({ ...size, bits: 8, colour: 2, rows, step: 3 })).rgb]).toEqual(rows)
})

test('16 bits by their high byte; grey three times; what is clear is paper', () => {
  const wide = noise(7 * 11 * 6)
  const high = wide.filter((_, i) => i % 2 === 0)
  expect([...readPng(png({ ...size, bits: 16, colour: 2, rows: wide, step: 6 })).rgb]).toEqual(high)
  const grey = noise(77)
  const thrice = grey.flatMap((value) => [value, value, value])
  expect([...readPng(png({ ...size, bits: 8, colour: 0, rows: grey, step: 1 })).rgb]).toEqual(thrice)
  const clear = grey.flatMap((value) => [value, 10, 20, 0])
  expect(new Set(readPng(png({ ...size, bits: 8, colour: 6, rows: clear, step: 4 })).rgb)).toEqual(new Set([255]))
  // Half covered, black over white: 255 · (1 − 128/255) = 127.
  const half = grey.flatMap(() => [0, 128])
  expect(new Set(readPng(png({ ...size, bits: 8, colour: 4, rows: half, step: 2 })).rgb)).toEqual(new Set([127]))
})

test('a picture of this repository has the pixels that another reader finds', async () => {
  const file = 'assets/halfshade.png'
  const PNG = createRequire(import.meta.url)('png-js')
  const theirs = await new Promise<Uint8Array>((resolve) => PNG.decode(file, resolve))
  const { width, height, rgb } = readPng(new Uint8Array(readFileSync(file)))
  const channels = theirs.length / (width * height)
  expect(channels).toBeGreaterThanOrEqual(3)
  let apart = 0
  for (let i = 0; i < width * height; i++)
    for (let c = 0; c < 3; c++) apart = Math.max(apart, Math.abs(rgb[3 * i + c]! - theirs[channels * i + c]!))
  expect(apart).toBe(0)
})

test('what it does not read is told', () => {
  const rows = noise(7 * 11 * 3)
  const told = { ...size, bits: 8, colour: 2, rows, step: 3 }
  expect(() => readPng(png({ ...told, interlaced: 1 }))).toThrow(/not interlaced/)
  expect(() => readPng(png({ ...told, colour: 3 }))).toThrow(/without a palette/)
  // Another size in the header, its checksum put right, than that of what is below it.
  const resized = (width: number, height: number) => {
    const file = png(told)
    const view = new DataView(file.buffer)
    view.setUint32(16, width)
    view.setUint32(20, height)
    view.setUint32(29, crc32(file.subarray(12, 29)))
    return file
  }
  expect(() => readPng(resized(7, 12))).toThrow(/expected 264 bytes of rows, got 242/)
  expect(() => readPng(resized(2 ** 31 - 1, 12))).toThrow(/pixels, got 2147483647 × 12/)
  const cut = writePng({ width: 2, height: 2, rgb: new Uint8Array(12) }).slice(0, 40)
  expect(() => readPng(cut)).toThrow(/cut off/)
})
