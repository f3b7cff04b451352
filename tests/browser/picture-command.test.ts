/** `npm run picture`: the picture that the page shows, as a file. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import parseExr from 'parse-exr'
import { expect, test } from 'vitest'
import { readPngText } from '../../src/exchange'
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

const meanOf = (values: Float32Array): number => values.reduce((sum, value) => sum + value, 0) / values.length

test('powers together: a head set 3 stops higher gives the same exposed picture; EXR is linear, a layer a source', () => {
  const sitting = firstSitting()
  const stronger = {
    ...sitting,
    sources: sitting.sources.map((source) => ({
      ...source,
      head: { ...source.head, powerStops: source.head.powerStops + 3 },
    })),
  }
  const [a, b] = [picture('as-set', sitting, 'exr'), picture('stronger', stronger, 'exr')].map((bytes) =>
    parseExr(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer, FLOAT),
  )
  expect([a.width, a.height]).toEqual([32, 48])
  const [meanA, meanB] = [meanOf(a.data as Float32Array), meanOf(b.data as Float32Array)]
  expect(meanA).toBeGreaterThan(0.02)
  // The meter's own noise at 1,024 paths is ±0.01 stop; both runs trace the same paths.
  expect(Math.abs(Math.log2(meanB / meanA))).toBeLessThan(0.005)
})

test('a PNG carries its sitting', () => {
  const sitting = firstSitting()
  const bytes = picture('png', sitting, 'png')
  expect(readPngText(bytes, 'halfshade.sitting')).toBe(writeSitting(sitting))
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
