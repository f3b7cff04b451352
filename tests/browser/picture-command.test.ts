/** `npm run picture`: the picture that the page shows, as a file. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import parseExr from 'parse-exr'
import { expect, test } from 'vitest'
import { readPngText } from '../../src/exchange'
import { readPngChunks } from '../../src/exchange/png'
import { linearFromSrgb } from '../../src/photometry'
import { firstSitting, type Sitting, writeSitting } from '../../src/sitting'

const folder = mkdtempSync(join(tmpdir(), 'picture-test-'))
const FLOAT = 1015 // three's FloatType, which the reader asks for

function picture(name: string, sitting: Sitting, extension: 'png' | 'exr') {
  const file = join(folder, `${name}.sitting.json`)
  const out = join(folder, `${name}.${extension}`)
  writeFileSync(file, writeSitting(sitting))
  const done = spawnSync(
    process.execPath,
    [
      'node_modules/tsx/dist/cli.mjs',
      'src/commands/picture.ts',
      file,
      '--out',
      out,
      '--width',
      '32',
      '--samples',
      '16',
    ],
    { encoding: 'utf8' },
  )
  expect(done.status, done.stderr).toBe(0)
  return readFileSync(out)
}

/** Codes of a PNG whose rows are stored as their differences from the row above (W3C PNG third edition, §9.2, filter 2). */
function codesOf(png: Uint8Array, width: number): Uint8Array {
  const data = inflateSync(
    Buffer.concat(readPngChunks(png).flatMap((chunk) => (chunk.type === 'IDAT' ? [chunk.data] : []))),
  )
  const stride = 3 * width
  const codes = new Uint8Array((data.length / (stride + 1)) * stride)
  for (let i = 0; i < codes.length; i++)
    codes[i] = data[i + Math.floor(i / stride) + 1] + (i >= stride ? codes[i - stride] : 0)
  return codes
}

test('powers together: a head set 3 stops higher gives the same exposed picture, as PNG with its sitting and as linear EXR', () => {
  const sitting = firstSitting()
  const stronger = {
    ...sitting,
    sources: sitting.sources.map((source) => ({
      ...source,
      head: { ...source.head, powerStops: source.head.powerStops + 3 },
    })),
  }
  const bytes = picture('as-set', sitting, 'exr')
  const exr = parseExr(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer, FLOAT)
  expect([exr.width, exr.height]).toEqual([32, 48])
  const png = picture('stronger', stronger, 'png')
  expect(readPngText(png, 'halfshade.sitting')).toBe(writeSitting(stronger))
  const [linear, codes] = [exr.data as Float32Array, codesOf(png, 32)]
  // sRGB is IEC 61966-2-1's; where no shoulder bends it and a code is less than a hundredth of the light.
  const off = Array.from({ length: codes.length / 3 }, (_, i) => i).flatMap((i) => {
    const row = Math.floor(i / 32)
    const value = linear[4 * ((47 - row) * 32 + (i % 32)) + 1]!
    return value > 0.1 && value < 0.4 ? [Math.log2(linearFromSrgb(codes[3 * i + 1]! / 255) / value)] : []
  })
  off.sort((a, b) => a - b)
  console.log(off.length, off[0], off[off.length >> 1], off[off.length - 1])
  expect(off.length).toBeGreaterThan(100)
  // The meter's own noise at 1,024 paths is ±0.01 stop; both runs trace the same paths.
  expect(Math.abs(off[Math.floor(off.length / 2)]!)).toBeLessThan(0.005)
})

test('a broken file is refused before any browser starts, with file, place, expected and got', () => {
  const file = join(folder, 'broken.sitting.json')
  writeFileSync(file, JSON.stringify({ ...firstSitting(), title: 7 }))
  const done = spawnSync(
    process.execPath,
    ['node_modules/tsx/dist/cli.mjs', 'src/commands/picture.ts', file, '--out', join(folder, 'x.png')],
    { encoding: 'utf8' },
  )
  expect(done.status).toBe(1)
  expect(done.stderr).toContain(`${file}: title: expected`)
  expect(done.stderr).not.toContain('    at ')
})
