import parseExr from 'parse-exr'
import { describe, expect, test } from 'vitest'
import { type ExrLayer, writeExr } from '../../src/exchange'

const FLOAT_TYPE = 1015

/** Smooth and noisy values, with some outside of 0 to 1, so that both packed and plain blocks occur. */
const layer = (name: string, width: number, height: number, seed: number): ExrLayer => ({
  name,
  rgb: Float32Array.from({ length: width * height * 3 }, (_, i) =>
    i < width * 30 ? Math.sin(i * 12.9898 + seed) * 43758.5453 : seed + (i % 7),
  ),
})

/** parse-exr gives RGBA from the bottom row up. */
function pixels(file: Uint8Array<ArrayBuffer>, width: number, height: number): Float32Array {
  const { data } = parseExr(file.buffer, FLOAT_TYPE)
  const rgb = new Float32Array(width * height * 3)
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let band = 0; band < 3; band++)
        rgb[(y * width + x) * 3 + band] = data[((height - 1 - y) * width + x) * 4 + band]
  return rgb
}

/**
 * The same file with channels called otherwise, for a reader that shows only R, G, B. The offset table is not mended:
 * parse-exr reads on without it.
 */
function renamed(file: Uint8Array<ArrayBuffer>, names: Readonly<Record<string, string>>): Uint8Array<ArrayBuffer> {
  const text = Buffer.from(file)
  const at = text.indexOf('channels\0chlist\0') + 'channels\0chlist\0'.length
  const size = text.readUInt32LE(at)
  const parts: Buffer[] = []
  let p = at + 4
  while (text[p] !== 0) {
    const end = text.indexOf(0, p)
    const name = text.toString('latin1', p, end)
    parts.push(Buffer.from(`${names[name] ?? name}\0`), text.subarray(end + 1, end + 17))
    p = end + 17
  }
  const list = Buffer.concat([...parts, Buffer.of(0)])
  const sizeBytes = Buffer.alloc(4)
  sizeBytes.writeUInt32LE(list.length)
  return Uint8Array.from(Buffer.concat([text.subarray(0, at), sizeBytes, list, text.subarray(at + 4 + size)]))
}

describe.each([
  [1, 1],
  [5, 16],
  [13, 17],
  [64, 40],
])('an OpenEXR picture of %i×%i', (width, height) => {
  const layers = [layer('', width, height, 1), layer('A', width, height, 2), layer('B', width, height, 3)]
  const file = writeExr({ width, height, layers, texts: { comments: 'Tidewater Hall' } })

  test('the plain channels are read by another program', () => {
    expect(pixels(file, width, height)).toEqual(layers[0].rgb)
  })

  test.each(['A', 'B'])('layer %s holds its own values', (name) => {
    const swap = { R: 'x.R', G: 'x.G', B: 'x.B', [`${name}.R`]: 'R', [`${name}.G`]: 'G', [`${name}.B`]: 'B' }
    const read = pixels(renamed(file, swap), width, height)
    expect(read).toEqual(layers.find((layer) => layer.name === name)?.rgb)
  })

  test('channels stand in the order of their names, as floats', () => {
    const { header } = parseExr(file.buffer, FLOAT_TYPE) as {
      header: { channels: { name: string; pixelType: number }[]; compression: string }
    }
    // "channels … sorted alphabetically", OpenEXR file layout; pixel type 2 is FLOAT.
    expect(header.channels.map(({ name }) => name)).toEqual(['A.B', 'A.G', 'A.R', 'B', 'B.B', 'B.G', 'B.R', 'G', 'R'])
    expect(header.channels.every(({ pixelType }) => pixelType === 2)).toBe(true)
    expect(header.compression).toBe('ZIP_COMPRESSION')
  })

  test('the offset table points at the blocks', () => {
    const view = new DataView(file.buffer)
    const blocks = Math.ceil(height / 16)
    // The header ends with an empty name; find the table from the last attribute.
    const end = Buffer.from(file).indexOf('Tidewater Hall') + 'Tidewater Hall'.length + 1
    for (let i = 0; i < blocks; i++) {
      const offset = Number(view.getBigUint64(end + i * 8, true))
      expect(view.getInt32(offset, true)).toBe(i * 16)
      const size = view.getUint32(offset + 4, true)
      const next = i + 1 < blocks ? Number(view.getBigUint64(end + (i + 1) * 8, true)) : file.length
      expect(offset + 8 + size).toBe(next)
    }
  })
})

test('a smooth picture is packed', () => {
  const rgb = new Float32Array(64 * 64 * 3).fill(0.18)
  const file = writeExr({ width: 64, height: 64, layers: [{ name: '', rgb }] })
  expect(file.length).toBeLessThan(rgb.byteLength / 20)
  expect(pixels(file, 64, 64)).toEqual(rgb)
})

test('what cannot be a picture is refused', () => {
  const rgb = new Float32Array(3)
  expect(() => writeExr({ width: 2, height: 1, layers: [{ name: 'A', rgb }] })).toThrow(/needs 6 values, got 3/)
  expect(() =>
    writeExr({
      width: 1,
      height: 1,
      layers: [
        { name: 'A', rgb },
        { name: 'A', rgb },
      ],
    }),
  ).toThrow(/two layers/)
  expect(() => writeExr({ width: 0.5, height: 1, layers: [] })).toThrow(/whole numbers/)
  expect(() => writeExr({ width: 1, height: 1, layers: [{ name: 'a b', rgb }] })).toThrow(/ASCII/)
})
