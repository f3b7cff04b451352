/**
 * Four views × three lights × four skins, and the sittings that come with the program, against pictures that were looked at and kept. They guard the sitter's looks
 * against change that nobody meant; what is right is judged elsewhere, against sources outside the project. After a change
 * that is meant: GOLDENS=write npx vitest run --project browser tests/browser/goldens.test.ts, then look at them. The usual
 * run draws the palest and the darkest skin, GOLDENS=all the two between as well.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { exposureOf, figureFiles, rigAssets, sittingFrom } from '../../src/commands/sitting-file'
import { writePng } from '../../src/exchange'
import { labFromHex } from '../../src/photometry'
import { LIGHT_NAMES, SKINS, VIEWS, type ViewName } from './golden-sets'
import type { RowOrder, SceneOrder, Tested } from './goldens.page'
import { type OpenPage, openPage } from './harness'

const TILE = { width: 96, height: 120 }
const SAMPLES = 16
/** Differences are seen over a few pixels, not in one: means of blocks of so many are compared. */
const BLOCK = 4
/**
 * CIELAB differences. About 2.3 is just noticeable between patches side by side (Mahy, Van Eycken and Oosterlinck 1994,
 * Color Research & Application 19(2)); the mean over a sheet may be a half of it, a hundredth of the blocks three times it.
 */
const MOST = { mean: 1.15, hundredth: 7 }

const DRAWN = process.env.GOLDENS ? SKINS : [SKINS[0], SKINS[SKINS.length - 1]!]

let open: OpenPage
beforeAll(async () => {
  open = await openPage('goldens.page.ts')
})
afterAll(() => open.close())

let sheets: Promise<ReadonlyMap<ViewName, Uint8Array>> | null = null
/** By view: sRGB bytes, lights side by side, skins one below another. A view costs little once another is drawn. */
async function drawSheets(): Promise<ReadonlyMap<ViewName, Uint8Array>> {
  const bySkin: Buffer[][] = []
  for (const skin of DRAWN) bySkin.push(await rows({ skin, ...TILE, samples: SAMPLES }))
  return new Map(VIEWS.map((view, i) => [view, Buffer.concat(bySkin.map((views) => views[i]!))]))
}

async function rows(order: RowOrder): Promise<Buffer[]> {
  const drawn = await open.page.evaluate((given) => (window as unknown as { tested: Tested }).tested.rows(given), order)
  return drawn.map((bytes) => Buffer.from(bytes, 'base64'))
}

/** sRGB bytes, three a pixel. */
async function readGolden(file: string): Promise<Uint8Array> {
  const png = readFileSync(file).toString('base64')
  const rgba = Buffer.from(
    await open.page.evaluate((given) => (window as unknown as { tested: Tested }).tested.decoded(given), png),
    'base64',
  )
  return Uint8Array.from({ length: (rgba.length / 4) * 3 }, (_, i) => rgba[Math.floor(i / 3) * 4 + (i % 3)]!)
}

/** Of all skins one below another, those that are drawn. */
function drawnOf(rgb: Uint8Array): Uint8Array {
  const each = rgb.length / SKINS.length
  return Buffer.concat(DRAWN.map((skin) => rgb.subarray(SKINS.indexOf(skin) * each, (SKINS.indexOf(skin) + 1) * each)))
}

/** CIELAB of every block's mean colour. */
function blocksOf(rgb: Uint8Array, width: number): (readonly [number, number, number])[] {
  const height = rgb.length / 3 / width
  const blocks = []
  for (let y = 0; y < height; y += BLOCK)
    for (let x = 0; x < width; x += BLOCK) {
      const mean = [0, 1, 2].map((band) => {
        let sum = 0
        for (let v = 0; v < BLOCK; v++)
          for (let u = 0; u < BLOCK; u++) sum += rgb[((y + v) * width + x + u) * 3 + band]!
        return Math.round(sum / BLOCK ** 2)
      })
      blocks.push(labFromHex(`#${mean.map((value) => value.toString(16).padStart(2, '0')).join('')}`))
    }
  return blocks
}

const fileOf = (name: string) => `tests/browser/goldens/${name}.png`

/** Held against the picture that was kept, or where it is to be kept, written. */
async function looksAsKept(name: string, width: number, rgb: Uint8Array, part = (kept: Uint8Array) => kept) {
  const file = fileOf(name)
  if (process.env.GOLDENS === 'write' || !existsSync(file)) {
    mkdirSync('tests/browser/goldens', { recursive: true })
    writeFileSync(file, writePng({ width, height: rgb.length / 3 / width, rgb }))
    expect(process.env.GOLDENS, `${file} was missing and has been written: look at it`).toBe('write')
    return
  }
  const [now, kept] = [blocksOf(rgb, width), blocksOf(part(await readGolden(file)), width)]
  expect(now.length).toBe(kept.length)
  const off = now.map((lab, i) => Math.hypot(...lab.map((value, k) => value - kept[i]![k]!))).sort((a, b) => a - b)
  expect(off.reduce((sum, value) => sum + value, 0) / off.length, 'mean difference').toBeLessThan(MOST.mean)
  expect(off[Math.floor(off.length * 0.99)], 'difference of the worst hundredth').toBeLessThan(MOST.hundredth)
}

// For the slowest machine: the first draws all of them.
test.each(VIEWS)('%s: no skin in no light looks other than it was kept', { timeout: 600_000 }, async (view) => {
  sheets ??= drawSheets()
  await looksAsKept(view, TILE.width * LIGHT_NAMES.length, (await sheets).get(view)!, drawnOf)
})

const SCENES = readdirSync('scenes').filter((file) => file.endsWith('.sitting.json'))

/** Enough for exposure: ±0.01 stop. */
const PATHS = 256

/** The usual run draws every other one. */
const SHOWN = process.env.GOLDENS ? SCENES : SCENES.filter((_, i) => i % 2 === 0)

test.each(SHOWN)('%s looks as it was kept', async (file) => {
  const { sitting } = await sittingFrom(`scenes/${file}`)
  const exposure = exposureOf(sitting, rigAssets(await figureFiles(sitting)), PATHS)
  const { sensorWidthMm, sensorHeightMm } = sitting.camera
  // Whole blocks.
  const height = BLOCK * Math.round((TILE.width * sensorHeightMm) / sensorWidthMm / BLOCK)
  const order: SceneOrder = { sitting, exposure, width: TILE.width, height, samples: SAMPLES }
  const drawn = await open.page.evaluate(
    (given) => (window as unknown as { tested: Tested }).tested.scene(given),
    order,
  )
  await looksAsKept(file.replace('.sitting.json', ''), TILE.width, Buffer.from(drawn, 'base64'))
})
