/** `npm run picture`: the picture that the page shows, as a file; and the page with graphics on, under a hand. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import parseExr from 'parse-exr'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readPngText } from '../../src/exchange'
import { readPngChunks } from '../../src/exchange/png'
import { linearFromSrgb } from '../../src/photometry'
import { firstSitting, type Sitting, writeSitting } from '../../src/sitting'
import { apart, CELLS, type Copy, copiesOf, copySince, keepCopies, lightOf, stopsBetween, timeOf } from './drawn-copies'
import { dragBy, grip, hostPage, type PageHost, shownIn, type, undoButton } from './page-host'

const folder = mkdtempSync(join(tmpdir(), 'picture-test-'))
const FLOAT = 1015 // three's FloatType, which the reader asks for

function picture(name: string, sitting: Sitting, extension: 'png' | 'exr', width = 32, samples = 16) {
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
      String(width),
      '--samples',
      String(samples),
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

const stronger = {
  ...firstSitting(),
  sources: firstSitting().sources.map((source) => ({
    ...source,
    head: { ...source.head, powerStops: source.head.powerStops + 3 },
  })),
}
let drawn: Buffer | null = null
/** The first sitting with its head 3 stops higher, exposed by the meter. */
const strongerPng = (): Buffer => {
  drawn ??= picture('stronger', stronger, 'png')
  return drawn
}

test('powers together: a head set 3 stops higher gives the same exposed picture, as PNG with its sitting and as linear EXR', () => {
  const bytes = picture('as-set', firstSitting(), 'exr')
  const exr = parseExr(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer, FLOAT)
  expect([exr.width, exr.height]).toEqual([32, 48])
  const png = strongerPng()
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

/** One page for all, its canvas 96 × 144 pixels at rest and 32 × 48 while a slow machine hurries. */
describe('the page with graphics on', () => {
  let host: PageHost
  let page: Page
  beforeAll(async () => {
    host = await hostPage()
    page = await host.visit({ graphics: true, deviceScaleFactor: 0.2017 })
    await keepCopies(page)
  })
  afterAll(async () => {
    await host?.leave()
    await host?.close()
  })

  /** The nearest that the page has come to a picture of the command, of so many samples. */
  const nearest = async (png: Buffer, width: number, samples: number) => {
    const codes = [...codesOf(png, width)]
    const same = (await copiesOf(page)).filter((copy) => copy.width === width && copy.samples === samples)
    return Math.min(...same.map((copy) => apart(copy.codes, codes).most), 255)
  }

  test('it shows what the command writes, of the same pixels and samples', async () => {
    const png = strongerPng()
    // Bounced light is solved coarsely at first, and may still be when these samples are in: up to 4 codes; seen 1 when not.
    await expect.poll(() => nearest(png, 32, 16), { timeout: 200_000 }).toBeLessThanOrEqual(6)
  })

  /** Mean light of the sitter's face to camera left and to camera right. */
  const sides = (copy: Copy) => {
    const light = lightOf(copy)
    const mean = (from: number, to: number) => {
      const part = light.filter((_, i) => {
        const [x, y] = [i % CELLS.columns, Math.floor(i / CELLS.columns)]
        return x >= from && x < to && y >= 7 && y < 13
      })
      return part.reduce((sum, value) => sum + value, 0) / part.length
    }
    return { left: mean(5, 8), right: mean(8, 11) }
  }
  /** What the first reading shows, an f-number, in stops over f/1. */
  const meter = async () => {
    const text = await page.locator('.reading .value').first().textContent()
    const [, full, tenths = '0'] = /^f\/([\d.]+)(?: \+ (\d\.\d))?/.exec(text!)!
    return Math.round(2 * Math.log2(Number(full))) + Number(tenths)
  }

  /** Takes long: AGREEMENT=all. */
  test.runIf(process.env.AGREEMENT === 'all')(
    'the picture follows a hand with mouse and keys: round, nearer, higher, feathered',
    {
      timeout: 4e6,
    },
    async () => {
      await page.getByRole('combobox', { name: 'What is kept when the light changes' }).selectOption('nothing')
      const first = await copySince(page, 0)
      expect(sides(first).right).toBeGreaterThan(1.2 * sides(first).left)
      // Round to the other side: the face is lit from there.
      const round = await copySince(page, await dragBy(page, grip(page, 'Plan', 'source key'), -140, 0))
      expect(await shownIn(page, 'A round')).toMatch(/left$/)
      expect(sides(round).left).toBeGreaterThan(1.2 * sides(round).right)
      // Nearer by half a metre at equal power, by key: brighter; four times the light at half the distance is the most (inverse square).
      await type(page, 'A tape', '1.5 m')
      let since = await timeOf(page)
      await page
        .getByRole('button', { name: /^source A, key/ })
        .first()
        .press('Shift+ArrowUp')
      expect(await shownIn(page, 'A tape')).toBe('1.00 m')
      const near = await copySince(page, since)
      since = await dragBy(page, grip(page, 'Elevation', 'source key'), 0, -40)
      const high = await copySince(page, since)
      expect(apart(lightOf(near), lightOf(high)).rms).toBeGreaterThan(0.005)
      // Turned towards the camera's side of the sitter at equal power, which leaves the face behind: less light on it.
      const face = (copy: Copy) => sides(copy).left + sides(copy).right
      since = await dragBy(page, grip(page, 'Plan', 'aim key'), 0, 160)
      const feathered = await copySince(page, since)
      expect(await page.getByRole('button', { name: /^undo/ }).textContent()).toMatch(/^undo: aim of A/)
      expect(face(feathered)).toBeLessThan(0.7 * face(high))
      since = await timeOf(page)
      await page.locator('.elevation [data-target="source key"]').press('Shift+ArrowDown')
      const low = await copySince(page, since)
      expect(apart(lightOf(feathered), lightOf(low)).rms).toBeGreaterThan(0.002)
      // Left alone it takes more and more samples.
      await expect
        .poll(async () => (await copiesOf(page)).at(-1)!.samples, { timeout: 120_000 })
        .toBeGreaterThanOrEqual(32)
    },
  )

  test('ISO, f-number and time at equal power: picture and meter as exposure has it', async () => {
    // The sitting as it was opened, but for the power that stays.
    while (await undoButton(page).isEnabled()) await undoButton(page).click()
    await page.getByRole('combobox', { name: 'What is kept when the light changes' }).selectOption('nothing')
    // It stands first, also while the camera is in hand.
    await page
      .getByRole('button', { name: /^pin: f\/.* near cheek/ })
      .first()
      .click()
    await page.getByRole('button', { name: 'camera', exact: true }).click()
    const before = await meter()
    const set = async (name: string, text: string) => {
      const since = await timeOf(page)
      await type(page, name, text)
      return copySince(page, since)
    }
    const start = await set('camera f', '8.1').then(() => set('camera f', '8'))
    // ISO 2720: N² = H·S/C, so the meter asks for a stop more where S is twice; and the exposure needed is half (ISO 12232).
    const doubled = await set('camera ISO', '200')
    const stopMore = async () => Math.abs((await meter()) - before - 1)
    await expect.poll(stopMore, { timeout: 60_000 }).toBeLessThan(0.15)
    expect(stopsBetween(start, doubled)).toBeCloseTo(1, 1)
    // Light on the sensor goes with 1/N² (ISO 517): back to the same picture by f/11.3. What the meter shows is not of the lens.
    const stopped = await set('camera f', String(8 * Math.SQRT2))
    expect(stopsBetween(start, stopped)).toBeCloseTo(0, 1)
    expect(await stopMore()).toBeLessThan(0.15)
    // All light is flash, shorter than either time.
    const longer = await set('camera shutter', '1/60')
    expect(stopsBetween(stopped, longer)).toBeCloseTo(0, 1)
    expect(await stopMore()).toBeLessThan(0.15)
  })
})
