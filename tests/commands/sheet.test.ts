/** `npm run sheet`, started as a person starts it. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { expect, test } from 'vitest'
import { readPng, writePng } from '../../src/exchange'

const folder = mkdtempSync(join(tmpdir(), 'sheet-test-'))

/** Runs it on a sitting; gives back where the sheet lies, its exit code and what it said. */
function sheet(scene: string, name: string, ...how: string[]) {
  const out = join(folder, name)
  const command = ['node_modules/tsx/dist/cli.mjs', 'src/commands/sheet.ts', `scenes/${scene}.sitting.json`]
  const done = spawnSync(process.execPath, [...command, '--out', out, ...how], { encoding: 'utf8' })
  return { out, code: done.status, said: done.stdout, told: done.stderr }
}

const pageOne = async (file: string) =>
  (await getDocument({ data: new Uint8Array(readFileSync(file)), verbosity: 0 }).promise).getPage(1)

test('a sitting becomes a PDF on Letter, of the day that was named', async () => {
  const made = sheet('hard-key-from-the-side', 's.pdf', '--paper', 'letter', '--no-picture', '--date', '2026-11-25')
  expect(made.code, made.told).toBe(0)
  const version = / version ([0-9a-f]{8}), without a picture\n$/.exec(made.said)![1]
  const page = await pageOne(made.out)
  // US Letter: 8½ × 11 inches (ANSI/ASME Y14.1, A).
  expect(page.view).toEqual([0, 0, 8.5 * 72, 11 * 72])
  const { items } = await page.getTextContent()
  const text = items.map((item) => ('str' in item ? item.str : '')).join(' ')
  for (const words of ['The caretaker, hard light from the side', '25 November 2026', `version ${version}, page 1 of`])
    expect(text).toContain(words)
})

test('paper and day are told what they may be', () => {
  const refused = sheet('notice-board', 'x.pdf', '--paper', 'a5')
  expect([refused.code, refused.told]).toEqual([2, '--paper: expected a4 or letter, got a5\n'])
})

// Draws a picture in a headless browser: some 40 s. SHEET_PICTURE=1.
test.runIf(process.env.SHEET_PICTURE)('its picture of a red backdrop is grey', { timeout: 600_000 }, async () => {
  const made = sheet('coloured-backdrop', 'grey.pdf')
  expect(made.code, made.told).toBe(0)
  const page = await pageOne(made.out)
  const { fnArray, argsArray } = await page.getOperatorList()
  const name: string = argsArray[fnArray.indexOf(OPS.paintImageXObject)][0]
  const image = await new Promise<{ width: number; height: number; data: Uint8Array }>((resolve) =>
    page.objs.get(name, resolve),
  )
  const channels = image.data.length / (image.width * image.height)
  expect(channels).toBeGreaterThanOrEqual(3)
  let spread = 0
  let [low, high] = [255, 0]
  for (let i = 0; i < image.data.length; i += channels) {
    const [r, g, b] = [image.data[i]!, image.data[i + 1]!, image.data[i + 2]!]
    spread = Math.max(spread, Math.abs(r - g), Math.abs(g - b))
    ;[low, high] = [Math.min(low, g), Math.max(high, g)]
  }
  expect(spread).toBe(0)
  expect(high - low).toBeGreaterThan(100)
})

test('a picture of one’s own lies on the sheet in grey, by the luma of BT.709; what is no picture is told', async () => {
  const [width, height] = [8, 12]
  const rgb = Uint8Array.from({ length: 3 * width * height }, (_, i) => [200, 40, 90][i % 3]!)
  const file = join(folder, 'red.png')
  writeFileSync(file, writePng({ width, height, rgb }))
  const made = sheet('hard-key-from-the-side', 'own.html', '--picture', file)
  expect(made.code, made.told).toBe(0)
  const [, packed] = /data:image\/png;base64,([A-Za-z0-9+/=]+)/.exec(readFileSync(made.out, 'utf8'))!
  const shown = readPng(Uint8Array.from(Buffer.from(packed!, 'base64')))
  // 0.2126 · 200 + 0.7152 · 40 + 0.0722 · 90 = 77.6 [ITU-R BT.709-6, item 3.2].
  expect(new Set(shown.rgb)).toEqual(new Set([78]))
  writeFileSync(file, 'no picture')
  const refused = sheet('hard-key-from-the-side', 'x.html', '--picture', file)
  expect([refused.code, refused.told]).toEqual([
    2,
    expect.stringMatching(/--picture: expected a PNG, got .*does not begin as a PNG/),
  ])
})
