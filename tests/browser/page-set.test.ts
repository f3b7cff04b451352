/** Panels, card, body, camera and lens by keys alone, with graphics on: what the readings say and what the picture shows of each. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { figureFiles, readingsOf, rigAssets } from '../../src/commands/sitting-file'
import { addPanel, firstSitting, removeThings, type Sitting, setPanel } from '../../src/sitting'
import { apart, type Copy, copiesOf, copySince, keepCopies, lightOf, timeOf } from './drawn-copies'
import { dragBy, field, grip, hostPage, PATHS, type PageHost, shownIn, undoButton } from './page-host'

let host: PageHost
let page: Page
beforeAll(async () => {
  host = await hostPage()
  // Its canvas has 96 × 144 pixels at rest and 32 × 48 while a slow machine hurries.
  page = await host.visit({ graphics: true, deviceScaleFactor: 0.2017 })
  page.setDefaultTimeout(60_000)
  await keepCopies(page)
  await page
    .getByRole('button', { name: /^\d+ more readings$/ })
    .first()
    .press('Enter')
})
afterAll(async () => {
  await host?.leave()
  await host?.close()
})

const inHand = (word: string) =>
  page.getByRole('navigation', { name: 'Things in the set' }).getByRole('button', { name: word, exact: true })
const slider = (name: string) => page.getByRole('slider', { name, exact: true })

/** Types as one does at the keys: the field's text is taken, replaced and accepted. */
async function typed(name: string, text: string): Promise<void> {
  await field(page, name).focus()
  await page.keyboard.press('ControlOrMeta+a')
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
}

async function add(word: string): Promise<void> {
  await inHand('add').press('Enter')
  await page.locator('.things .list').getByRole('button', { name: word, exact: true }).press('Enter')
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('add')
}

async function remove(): Promise<void> {
  await page.getByRole('button', { name: 'remove', exact: true }).press('Enter')
  // Nothing is in hand then, as its own remove would lie under the pointer; the keys go on from the things, and not from the top of the page.
  await page.waitForFunction(() => document.activeElement?.matches('.things > .word'))
  expect(await page.locator('.things [aria-pressed="true"]').count()).toBe(0)
  expect(await page.getByRole('button', { name: 'remove', exact: true }).count()).toBe(0)
}

const value = (sentence: RegExp) => page.locator('.reading', { hasText: sentence }).first().locator('.value')
const read = async (sentence: RegExp) => (await value(sentence).textContent())!.trim().replace(/ stops$/, ' stop')

/** Near to far cheek as the page says it once all light is traced. */
async function nearToFar(): Promise<string> {
  await expect.poll(() => page.locator('.since').textContent(), { timeout: 120_000 }).not.toMatch(/reading what it/)
  return read(/from the cheek at camera right to/)
}
let assets: ReturnType<typeof rigAssets> | null = null
/** The same by the readings in Node, over a set that was built by pure edits. */
async function nearToFarOf(sitting: Sitting): Promise<{ readonly text: string; readonly stops: number }> {
  assets ??= rigAssets(await figureFiles(sitting))
  const found = readingsOf(sitting, assets, { paths: PATHS }).readings.find(({ id }) => id === 'ratio.nearFar')!
  return { text: `${found.text} ${found.unit}`, stops: found.value as number }
}

/** Mean light of the far cheek's part of the frame. */
const farSide = (copy: Copy): number => {
  const part = lightOf(copy).filter((_, i) => i % 16 >= 5 && i % 16 < 8 && i >= 16 * 7 && i < 16 * 13)
  return part.reduce((sum, light) => sum + light, 0) / part.length
}
const rowsOf = (copy: Copy, from: number, to: number) => lightOf(copy).slice(16 * from, 16 * to)

test('a panel is moved, turned and removed, a black one carried in: near to far cheek as in Node, and the far side of the face', async () => {
  const first = firstSitting()
  const near = setPanel(first, 'panel', { centreM: [-0.37, 1.15, 0.1] })
  const turned = setPanel(near, 'panel', { turnDeg: 20 })
  const none = removeThings(first, ['panel'])
  const { sitting: withBlack, id } = addPanel(none, 'black')
  const black = setPanel(withBlack, id, { centreM: [-0.37, 1.15, 0.1] })
  const sets = [first, near, turned, none, black]
  const told: Awaited<ReturnType<typeof nearToFarOf>>[] = []
  for (const set of sets) told.push(await nearToFarOf(set))
  const stops = told.map((one) => one.stops)
  // Nearer a panel is a wider source of light; a matt one that turns its face away sends less; black takes what the wall sent.
  expect(stops[1]).toBeGreaterThan(stops[0]! + 0.1)
  expect(stops[2]).toBeLessThan(stops[1]! - 0.1)
  expect(stops[3]).toBeLessThan(stops[2]! - 0.05)
  expect(stops[4]).toBeLessThan(stops[3]! - 0.02)

  const start = await copySince(page, 0)
  let since = await timeOf(page)
  const handle = page.getByRole('region', { name: 'Plan' }).getByRole('button', { name: /^white panel/ })
  await handle.focus()
  for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowRight')
  expect(await shownIn(page, 'white panel across')).toBe('0.37 m left')
  expect(await nearToFar()).toBe(told[1]!.text)
  const nearer = await copySince(page, since)
  expect(farSide(nearer)).toBeGreaterThan(1.05 * farSide(start))

  await slider('white panel turn').focus()
  for (let i = 0; i < 7; i++) await page.keyboard.press('Shift+ArrowLeft')
  expect(await shownIn(page, 'white panel turn')).toBe('20° right')
  expect(await nearToFar()).toBe(told[2]!.text)

  await remove()
  expect(await undoButton(page).textContent()).toBe('undo: white panel removed')
  expect(await nearToFar()).toBe(told[3]!.text)

  since = await timeOf(page)
  await add('black panel')
  await typed('black panel across', '0.37 m left')
  expect(await nearToFar()).toBe(told[4]!.text)
  // Where the white one stood. Its first picture may still have the light that bounced before; one of sixteen samples is good to a fifth.
  await expect
    .poll(async () => farSide(await copySince(page, since)), { timeout: 60_000 })
    .toBeLessThan(0.7 * farSide(nearer))
})

test.runIf(process.env.AGREEMENT === 'all')('a turned body turns under the same head', async () => {
  const settled = async (since: number) => {
    await page.waitForFunction(
      (from) => window.copies.some(({ askedAtMs, samples }) => askedAtMs >= from && samples >= 48),
      since,
      { timeout: 120_000 },
    )
    return copySince(page, since)
  }
  const fromNose = /from the nose, to camera right: that makes/
  const face = Number.parseFloat(await read(fromNose))
  const before = await settled(0)
  const since = await timeOf(page)
  await inHand('sitter').press('Enter')
  await slider('sitter body').focus()
  for (let i = 0; i < 3; i++) await page.keyboard.press('Shift+ArrowRight')
  expect(await shownIn(page, 'sitter body')).toBe('30° right')
  const after = await settled(since)
  const moved = (from: number, to: number) => apart(rowsOf(before, from, to), rowsOf(after, from, to)).rms
  expect(moved(18, 24)).toBeGreaterThan(0.01)
  // Shoulders and chest, but not the paper above the head.
  expect(moved(0, 3)).toBeLessThan(0.3 * moved(18, 24))
  // The head keeps its turn, and goes with the neck by less than a centimetre: 0.5° as seen from a metre.
  expect(Math.abs(Number.parseFloat(await read(fromNose)) - face)).toBeLessThanOrEqual(1)
})

/** The middle of a picture, as large as the whole one shows it where everything is twice as large. */
function middle(copy: Copy): number[] {
  const [w, h] = [copy.width / 2, copy.height / 2]
  const codes = Array.from({ length: w * h }, (_, i) => {
    const at = (Math.floor(i / w) + h / 2) * copy.width + (i % w) + w / 2
    return copy.codes.slice(3 * at, 3 * at + 3)
  }).flat()
  return lightOf({ ...copy, width: w, height: h, codes })
}

test.runIf(process.env.AGREEMENT === 'all')(
  'camera and lens: half as near, half as high a frame; twice the focal length, twice as large a picture',
  async () => {
    const height = async () => Number.parseFloat(await read(/is how high the frame is at the eyes/))
    const fine = async (since: number) => {
      await page.waitForFunction(
        (from) => window.copies.some(({ askedAtMs, width }) => askedAtMs >= from && width >= 64),
        since,
        { timeout: 120_000 },
      )
      return (await copiesOf(page)).filter(({ width }) => width >= 64).at(-1)!
    }
    let since = await timeOf(page)
    await inHand('camera').press('Enter')
    // Similar triangles: sensor height × (distance / focal length − 1) where focused on the eyes, the sensor being 36 mm high.
    const closed = (distanceMm: number, focalMm: number) => (36 * (distanceMm - focalMm)) / focalMm / 1000
    const back = slider('camera back')
    await back.focus()
    for (let i = 0; i < 3; i++) await page.keyboard.press('Shift+ArrowRight')
    expect(await shownIn(page, 'camera back')).toBe('3.00 m')
    await expect.poll(height).toBeCloseTo(closed(3000, 105), 1)
    const wide = await fine(since)
    since = await timeOf(page)
    await typed('camera focal', '210 mm')
    await expect.poll(height).toBeCloseTo(closed(3000, 210), 1)
    const long = await fine(since)
    const same = apart(middle(wide), lightOf(long)).rms
    // What stands at the same place in the frame is another thing.
    expect(same).toBeLessThan(0.25 * apart(lightOf(wide), lightOf(long)).rms)
    await page.keyboard.press('Control+z')
  },
)

test('a white card carried in sends back as its reflectance has it: half of that, one stop less', async () => {
  await page.getByRole('combobox', { name: 'What is kept when the light changes' }).selectOption('nothing')
  let since = await timeOf(page)
  const bare = await copySince(page, 0)
  await add('white card')
  expect(await shownIn(page, 'card grey')).toBe('88 %')
  const white = await copySince(page, since)
  const shown = async (percent: number) => {
    since = await timeOf(page)
    await typed('card grey', `${percent} %`)
    return lightOf(await copySince(page, since))
  }
  const [full, half] = [await shown(40), await shown(20)]
  const card = lightOf(bare).flatMap((light, i) => (Math.abs(lightOf(white)[i]! - light) > 0.15 ? [i] : []))
  const stops = card.map((i) => Math.log2(half[i]! / full[i]!)).sort((a, b) => a - b)
  expect(stops.length).toBeGreaterThan(3)
  // A matt card's luminance is ρ·E/π (Lambert).
  expect(stops[stops.length >> 1]).toBeCloseTo(-1, 1)
})

/** All 512 samples take a machine without a card minutes: AGREEMENT=all. */
test.runIf(process.env.AGREEMENT === 'all')(
  'after a drag with the mouse the picture comes to its end, and says so',
  async () => {
    const words = page.locator('.readings .head .end')
    await dragBy(page, grip(page, 'Plan', 'source key'), -40, 10)
    expect(await words.textContent()).not.toMatch(/finished/)
    await expect.poll(() => words.textContent(), { timeout: 200_000 }).toMatch(/^finished (to [\d.]+ %|, \d+ samples)$/)
    // The last copy of what is in sight comes a moment later.
    await expect.poll(async () => (await copiesOf(page)).at(-1)!.samples, { timeout: 20_000 }).toBe(512)
  },
)
