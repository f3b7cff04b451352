/** The contact sheet, by keys alone and without graphics: the numbers stand, a variant is taken up as one step. */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { HELP } from '../../src/ui/help/entries'
import { axe, hostPage, type PageHost, shownIn, undoButton } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

test('variants stand side by side with their edges, say what cannot be seen, and one is taken up', async () => {
  const page = await host.visit({ viewport: { width: 1024, height: 768 } })
  const word = page.getByRole('button', { name: 'contact sheet', exact: true })
  await word.focus()
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'distances', exact: true }).press('Enter')
  const cells = page.locator('.cells > li')
  await cells.nth(2).locator('.edge').waitFor({ timeout: 120_000 })
  const names = await cells.evaluateAll((items) => items.map((item) => item.getAttribute('aria-label')))
  expect(names).toEqual(['1.00 m', '1.40 m', '2.00 m'])
  // The nearer the same lamp, the wider it looks and the wider the edge: a closed form, S·d/D.
  const edges = await cells.locator('.edge .value').allTextContents()
  const widths = edges.map(Number)
  expect(widths.every((width, i) => i === 0 || width < widths[i - 1]!)).toBe(true)
  await page.getByText('the set as it stands').waitFor({ timeout: 120_000 })
  // Behind the sheet nothing takes the focus.
  expect(await page.locator('main').evaluate((main) => (main as HTMLElement).inert)).toBe(true)
  expect(await axe(page)).toEqual([])
  await page.getByRole('button', { name: 'take up 2.00 m', exact: true }).press('Enter')
  await cells.first().waitFor({ state: 'detached' })
  expect(await shownIn(page, 'A tape')).toBe('2.00 m')
  expect(await undoButton(page).textContent()).toBe('undo: 2.00 m, from the contact sheet')
  expect(await word.evaluate((button) => button === document.activeElement)).toBe(true)
  await word.press('Enter')
  await page.getByRole('heading', { name: 'Contact sheet' }).waitFor()
  await page.keyboard.press('Escape')
  expect(await page.locator('.contact').count()).toBe(0)
  // The help names words that are on the page where it is wide.
  await page.setViewportSize({ width: 1440, height: 900 })
  await page.getByRole('button', { name: 'room', exact: true }).waitFor()
  const named = HELP.flatMap(({ says }) => [...says.matchAll(/‹([^›]+)›/g)].map(([, named]) => named!))
  // What shows only once there is something for it.
  const later = ['aim at the nose again', 'apply', 'keep', 'wipe', 'why', 'pin', 'history', 'update']
  for (const words of new Set(named.filter((one) => !later.includes(one))))
    expect(await page.getByRole('button', { name: new RegExp(`^${words}`) }).count(), words).toBeGreaterThan(0)
  await page.getByRole('button', { name: 'help', exact: true }).press('Enter')
  await page.keyboard.type('Feather a source')
  await page.getByText('1 answer', { exact: true }).waitFor()
  await page.keyboard.press('Escape')
  expect(
    await page.getByRole('button', { name: 'help', exact: true }).evaluate((at) => at === document.activeElement),
  ).toBe(true)
  await host.leave()
})
