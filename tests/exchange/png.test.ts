import { inflateSync, crc32 as nodeCrc32 } from 'node:zlib'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readPngText, writePng } from '../../src/exchange'
import { crc32 } from '../../src/exchange/crc32'
import { isPng } from '../../src/exchange/is-png'
import { readPngChunks } from '../../src/exchange/png'

const picture = (width: number, height: number) => ({
  width,
  height,
  rgb: Uint8Array.from({ length: width * height * 3 }, (_, i) => (i * 37 + (i >> 3)) % 256),
})

test('CRC-32 of "123456789" is CBF43926', () => {
  // Check value of CRC-32/ISO-HDLC, Koopman's and the RevEng catalogue.
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926)
})

test('CRC-32 agrees with zlib on any bytes', () => {
  fc.assert(fc.property(fc.uint8Array(), (bytes) => crc32(bytes) === nodeCrc32(bytes)))
})

/** Rows by the decoder of the standard (PNG third edition §9.2), filter 0 and 2 only, written apart from the encoder. */
function decode(file: Uint8Array, width: number, height: number): Uint8Array {
  const data = inflateSync(
    Buffer.concat(
      readPngChunks(file)
        .filter(({ type }) => type === 'IDAT')
        .map(({ data }) => data),
    ),
  )
  const rgb = new Uint8Array(width * height * 3)
  const stride = width * 3
  for (let y = 0; y < height; y++)
    for (let x = 0; x < stride; x++) {
      const filter = data[y * (stride + 1)]
      expect([0, 2]).toContain(filter)
      const above = filter === 2 && y > 0 ? rgb[(y - 1) * stride + x] : 0
      rgb[y * stride + x] = (data[y * (stride + 1) + 1 + x] + above) & 255
    }
  return rgb
}

test('the pixels come back, and the header says 8-bit RGB', () => {
  const original = picture(7, 5)
  const file = writePng(original)
  // IHDR fields: PNG third edition §11.2.1.
  const header = readPngChunks(file)[0]
  expect(header.type).toBe('IHDR')
  expect([...header.data]).toEqual([0, 0, 0, 7, 0, 0, 0, 5, 8, 2, 0, 0, 0])
  expect(decode(file, 7, 5)).toEqual(original.rgb)
  // The last twelve bytes of every PNG: an empty IEND with its checksum.
  expect([...file.subarray(-12)]).toEqual([0, 0, 0, 0, 0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82])
})

test('text in any script survives', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (text) => {
      const file = writePng(picture(1, 1), { Sitting: text, Comment: 'x' })
      return (
        readPngText(file, 'Sitting') === text &&
        readPngText(file, 'Comment') === 'x' &&
        readPngText(file, 'None') === null
      )
    }),
  )
})

test('damage is told, not read over', () => {
  const file = writePng(picture(4, 4), { Sitting: 'some text' })
  const damaged = file.slice()
  damaged[60] ^= 1
  expect(() => readPngText(damaged, 'Sitting')).toThrow(/damaged/)
  expect(() => readPngText(file.subarray(0, file.length - 20), 'None')).toThrow(/cut off/)
  expect(() => readPngText(Uint8Array.of(1, 2, 3), 'Sitting')).toThrow(/PNG/)
  expect(isPng(file)).toBe(true)
})

test('a text that would unpack to more than 16 MiB is refused', () => {
  const file = writePng(picture(1, 1), { Sitting: 'a'.repeat(17 * 2 ** 20) })
  expect(file.length).toBeLessThan(100_000)
  expect(() => readPngText(file, 'Sitting')).toThrow(/longer than/)
})

test('wrong sizes and keywords are refused', () => {
  expect(() => writePng({ width: 2, height: 2, rgb: new Uint8Array(11) })).toThrow(/12 bytes, got 11/)
  expect(() => writePng(picture(1, 1), { '': 'x' })).toThrow(/keyword/)
  expect(() => writePng(picture(1, 1), { ['k'.repeat(80)]: 'x' })).toThrow(/keyword/)
})
