/** The contact sheet, by keys alone and without graphics: the numbers stand, a variant is taken up as one step. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { HELP } from '../../src/ui/help/entries'
import { axe, axeInBoth, hostPage, type PageHost, shownIn, undoButton } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

/** What stands on a row of the sheet, by its name. */
const ROWS: Readonly<Record<string, (names: readonly string[]) => void>> = {
  'panel in white, silver, gold, black': (names) =>
    expect(names).toEqual(['white panel', 'silver panel', 'gold panel', 'black panel']),
  // The set as it stands first, and the rest that goes onto its head, but what would be in the face.
  'other modifiers': (names) => {
    expect(names[0]).toBe('white umbrella 0.95 m')
    expect(names.some((name) => name.startsWith('strip'))).toBe(true)
  },
  // As it stands, and then the usual ones, each with its lamp out of the face.
  'modifiers, each near': (names) => {
    expect(names[0]).toMatch(/^white umbrella 0\.95 m, as it stands$/)
    expect(new Set(names.map((name) => name.replace(/ [\d.].*$/, ''))).size).toBeGreaterThan(5)
  },
}

/** The row is chosen by keys; the numbers of each come: how large a source that is varied looks, and the edge. */
async function numbersUnderEach(page: Page, row: string, stands: (names: readonly string[]) => void): Promise<void> {
  await page.locator('.contact').getByRole('button', { name: row, exact: true }).press('Enter')
  const cells = page.locator('.cells > li')
  const under = cells.locator('.caption').filter({
    hasText: row.startsWith('panel')
      ? /^(?!.*appears).*\d mm wide shadow edge/
      : /\d mm wide shadow edge.*A appears \d/,
  })
  await expect
    .poll(() => cells.count().then(async (all) => all > 2 && (await under.count()) === all), { timeout: 120_000 })
    .toBe(true)
  stands(await cells.evaluateAll((items) => items.map((item) => item.getAttribute('aria-label')!)))
}

/** A list that is longer than its column scrolls within it; readings begin at the top when another thing is taken in hand. */
async function columnsAtHand(page: Page): Promise<void> {
  const things = page.getByRole('navigation', { name: 'Things in the set' })
  await things.getByRole('button', { name: /: change the modifier of A$/ }).press('Enter')
  const list = things.locator('.what > .list')
  const { bottom, under, reaches } = await list.evaluate((element) => {
    const last = element.lastElementChild!
    element.scrollTop = element.scrollHeight
    return {
      bottom: element.getBoundingClientRect().bottom,
      under: window.innerHeight,
      reaches: last.getBoundingClientRect().bottom,
    }
  })
  expect(bottom).toBeLessThanOrEqual(under)
  expect(reaches).toBeLessThanOrEqual(bottom)
  await page.keyboard.press('Escape')
  const readings = page.locator('.readings')
  await page
    .getByRole('button', { name: /more readings$/ })
    .first()
    .press('Enter')
  const down = () => readings.evaluate(({ scrollTop }) => scrollTop)
  await readings.evaluate((column) => column.scrollTo(0, column.scrollHeight))
  expect(await down()).toBeGreaterThan(0)
  const take = async (word: string) => {
    await things.locator('.opens > .word').first().press('Enter')
    await things.locator('.list').getByRole('button', { name: word, exact: true }).press('Enter')
  }
  await take('camera')
  await expect.poll(down).toBe(0)
  await take('A')
  await page.getByRole('button', { name: 'fewer', exact: true }).first().press('Enter')
}

test('variants stand side by side with their edges, say what cannot be seen, and one is taken up', async () => {
  const page = await host.visit({ viewport: { width: 1024, height: 768 } })
  const word = page.getByRole('button', { name: 'contact sheet', exact: true })
  await page
    .getByRole('button', { name: /more readings$/ })
    .first()
    .waitFor({ timeout: 120_000 })
  await columnsAtHand(page)
  // Among the controls of the source, and beside the takes; each gives the focus back to its own word.
  await page.locator('.tabs').getByRole('button', { name: 'variants', exact: true }).press('Enter')
  const among = page.locator('.ways-in').getByRole('button', { name: 'sizes of A, side by side', exact: true })
  await among.press('Enter')
  await page.getByRole('heading', { name: 'Contact sheet' }).waitFor()
  await page.keyboard.press('Escape')
  await expect.poll(() => among.evaluate((button) => button === document.activeElement)).toBe(true)
  await page.locator('.tabs').getByRole('button', { name: 'where', exact: true }).press('Enter')
  const beside = page.getByRole('button', { name: 'variants of A, side by side', exact: true })
  await beside.press('Enter')
  expect(await axe(page)).toEqual([])
  await page
    .locator('.takes .list')
    .getByRole('button', { name: 'distances of A, side by side', exact: true })
    .press('Enter')
  const cells = page.locator('.cells > li')
  await cells.nth(2).locator('.edge').waitFor({ timeout: 120_000 })
  const names = await cells.evaluateAll((items) => items.map((item) => item.getAttribute('aria-label')))
  expect(names).toEqual(['1.00 m', '1.40 m', '2.00 m'])
  // The nearer the same lamp, the wider it looks and the wider the edge: a closed form, S·d/D.
  const edges = await cells.locator('.edge .value').allTextContents()
  const widths = edges.map(Number)
  expect(widths.every((width, i) => i === 0 || width < widths[i - 1]!)).toBe(true)
  await page
    .getByText('the reference, the set as it stands: the others are compared with it')
    .waitFor({ timeout: 120_000 })
  // The way out stands in the corner, the result before what can be done with it; the reason for a difference comes first.
  const corner = page.locator('.contact-head').getByRole('button', { name: 'close', exact: true })
  const { x, y, width } = (await corner.boundingBox())!
  expect([x + width > 1024 - 40, y < 40]).toEqual([true, true])
  expect(
    await cells
      .nth(1)
      .locator('.caption')
      .evaluate((caption) => caption.lastElementChild!.className),
  ).toBe('actions')
  const scrolled = () => page.locator('.contact').evaluate(({ scrollTop }) => scrollTop)
  await page.getByRole('button', { name: 'why: 2.00 m', exact: true }).focus()
  const before = await scrolled()
  await page.keyboard.press('Enter')
  await expect
    .poll(() => page.locator('.contact .told .reasons p').nth(1).textContent(), { timeout: 120_000 })
    .toMatch(/^A appears \d+° wide square across the edge, \d+° in the reference: .*so it is narrower\.$/)
  const [, size, gap, far, edge] = (await page.locator('.contact .told .reasons p').first().textContent())!
    .match(/^Shadow edge = size .*: ([\d.]+) m · ([\d.]+) mm \/ ([\d.]+) m = ([\d.]+) mm square to the light/)!
    .map(Number)
  // Similar triangles, of the figures as they are shown.
  expect(Math.abs((size! * gap!) / far! / edge! - 1)).toBeLessThan(0.05)
  // It lies at the foot and moves nothing; what does not fit says so first, and how it is taken all the same.
  expect(await scrolled()).toBe(before)
  expect(await page.locator('.contact .told b').textContent()).toBe('2.00 m')
  expect(await cells.nth(2).locator('.caution').textContent()).toMatch(/^Does not fit: its top is \d+\u00a0cm above/)
  expect(await cells.nth(0).locator('.caution').count()).toBe(0)
  await page.getByRole('button', { name: 'hide: 2.00 m', exact: true }).press('Enter')
  expect(await page.locator('.contact .told').count()).toBe(0)
  // Escape closes the reasons, and the sheet only then.
  await page.getByRole('button', { name: 'why: 2.00 m', exact: true }).press('Enter')
  await page.locator('.contact .told').waitFor()
  await page.keyboard.press('Escape')
  await expect.poll(() => page.locator('.contact .told').count()).toBe(0)
  expect(await page.locator('.contact').count()).toBe(1)
  // Behind the sheet nothing takes the focus.
  expect(await page.locator('main').evaluate((main) => (main as HTMLElement).inert)).toBe(true)
  expect(await axeInBoth(page)).toEqual([])
  // Half as far is about twice as wide an edge, read to the end; the one in hand changes the reference.
  await page
    .getByRole('button', { name: 'make it the reference: compare the others with 2.00 m', exact: true })
    .press('Enter')
  await cells
    .first()
    .getByText(/^shadow edge (1\.9|2\.0|9\d\s%|2\.1)/)
    .waitFor({ timeout: 120_000 })
  expect(await cells.nth(2).locator('.verdict').textContent()).toBe('the reference: the others are compared with it')
  await page.getByRole('button', { name: 'use it all the same: 2.00 m', exact: true }).press('Enter')
  await cells.first().waitFor({ state: 'detached' })
  expect(await shownIn(page, 'A tape')).toBe('2.00 m')
  expect(await undoButton(page).textContent()).toBe('undo: 2.00 m, from the contact sheet')
  await expect.poll(() => beside.evaluate((button) => button === document.activeElement)).toBe(true)
  // It shows again what was looked at last.
  await word.press('Enter')
  await page.locator('.contact').getByRole('button', { name: 'distances', exact: true, pressed: true }).waitFor()
  for (const [row, stands] of Object.entries(ROWS)) await numbersUnderEach(page, row, stands)
  await page.keyboard.press('Escape')
  expect(await page.locator('.contact').count()).toBe(0)
  // The help names words that are on the page where it is wide.
  await page.setViewportSize({ width: 1440, height: 900 })
  await page.getByRole('button', { name: 'room', exact: true }).waitFor()
  const named = HELP.flatMap(({ says }) => [...says.matchAll(/‹([^›]+)›/g)].map(([, named]) => named!))
  // What shows only once there is something for it.
  const later = [
    'aim at the nose again',
    'apply',
    'keep',
    'compare',
    'split picture',
    'make it the reference',
    'use this one',
    'new take',
    'use',
    'why',
    'pin',
    'history',
    'update',
  ]
  for (const words of new Set(named.filter((one) => !later.includes(one))))
    expect(await page.getByRole('button', { name: new RegExp(`^${words}`) }).count(), words).toBeGreaterThan(0)
  await page.getByRole('button', { name: 'help', exact: true }).press('?')
  await page.getByRole('searchbox', { name: 'find in the help' }).waitFor()
  await page.keyboard.type('Feather a source')
  await page.getByText('1 answer', { exact: true }).waitFor()
  expect(await page.locator('.help mark').allTextContents()).toEqual(['feather', 'source'])
  expect(await axeInBoth(page)).toEqual([])
  await page.keyboard.press('Escape')
  // In the next frame.
  const help = page.getByRole('button', { name: 'help', exact: true })
  await expect.poll(() => help.evaluate((button) => button === document.activeElement), { timeout: 20_000 }).toBe(true)
  await host.leave()
})
