import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { axe, field, hostPage, type PageHost, shownIn, type, undoButton } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

const things = (page: Page) => page.getByRole('navigation', { name: 'Things in the set' })
const take = (page: Page, word: string) => things(page).getByRole('button', { name: word, exact: true }).click()
const shape = (page: Page, who = 'sitter') => page.getByRole('combobox', { name: `${who} shape` })
const measures = (page: Page) => page.getByRole('button', { name: 'measures of sitter' })

test('a ready shape is chosen, dialled by keyboard alone, and undone by name', async () => {
  const page = await host.visit()
  await take(page, 'sitter')
  await shape(page).selectOption({ label: 'Broad face' })
  expect(await undoButton(page).textContent()).toBe('undo: sitter shape: Broad face')
  await page.getByRole('combobox', { name: 'sitter posture' }).selectOption({ label: 'in a wheelchair' })
  expect(await shownIn(page, 'sitter eyes')).toBe('1.27 m')
  expect(await undoButton(page).textContent()).toBe('undo: sitter posture: in a wheelchair')
  await undoButton(page).click()
  await measures(page).focus()
  await page.keyboard.press('Enter')
  expect(await measures(page).getAttribute('aria-expanded')).toBe('true')
  expect(await shownIn(page, 'sitter head breadth')).toBe('159 mm')
  const jaw = page.getByRole('slider', { name: 'sitter jaw width' })
  await jaw.focus()
  await page.keyboard.press('Shift+ArrowLeft')
  expect(await shownIn(page, 'sitter jaw width')).toBe('108 mm')
  expect(await undoButton(page).textContent()).toBe('undo: sitter jaw 108 mm')
  expect(await shape(page).locator('option:checked').textContent()).toBe('As dialled')
  await type(page, 'sitter nose bridge', '40 mm')
  await page.getByText('nose bridge: expected 1 mm to 13 mm, got 40 mm').waitFor()
  await page.keyboard.press('Escape')
  await jaw.focus()
  await page.keyboard.press('Control+z')
  expect(await shape(page).inputValue()).toBe('broad')
  await page.keyboard.press('Control+z')
  expect(await shape(page).inputValue()).toBe('average')
  await measures(page).click()
  expect(await field(page, 'sitter head breadth').count()).toBe(0)
  await host.leave()
})

test('readings follow the shape: the smaller nose of a child throws a narrower edge', async () => {
  const page = await host.visit()
  const edge = page.locator('.reading', { hasText: 'edge of the nose shadow' }).first().locator('.value')
  const widthMm = async () => Number.parseFloat((await edge.textContent()) ?? '')
  const grown = await widthMm()
  await take(page, 'sitter')
  await shape(page).selectOption({ label: 'Child, 7 years' })
  // A nose of 16 mm for one of 20 mm: narrower by a fifth at least.
  await expect.poll(widthMm, { timeout: 60_000 }).toBeLessThan(0.8 * grown)
  await host.leave()
})

test('a second sitter is added, shaped, moved and taken away; the first cannot be', async () => {
  const page = await host.visit()
  await page.getByRole('button', { name: 'add', exact: true }).click()
  await page.getByRole('button', { name: 'second sitter', exact: true }).click()
  await shape(page, 'sitter 2').selectOption({ label: 'Child, 7 years' })
  await type(page, 'sitter 2 across', '0.60 m left')
  expect(await shownIn(page, 'sitter 2 across')).toBe('0.60 m left')
  await page.getByRole('button', { name: 'turn of the head of sitter 2' }).waitFor()
  await page.getByRole('button', { name: 'add', exact: true }).click()
  expect(await page.getByRole('button', { name: 'second sitter', exact: true }).count()).toBe(0)
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: 'remove', exact: true }).click()
  expect(await things(page).getByRole('button', { name: 'sitter 2', exact: true }).count()).toBe(0)
  expect(await undoButton(page).textContent()).toBe('undo: sitter 2 removed')
  await take(page, 'sitter')
  expect(await page.getByRole('button', { name: 'remove', exact: true }).count()).toBe(0)
  await host.leave()
})

test.each([
  [1440, 900],
  [1024, 768],
  [390, 844],
])('axe finds nothing and nothing runs out at the side at %d × %d with all measures open', async (width, height) => {
  const page = await host.visit({ viewport: { width, height } })
  if (width < 1280) {
    await things(page)
      .getByRole('button', { name: /in hand/ })
      .click()
    await take(page, 'sitter')
    await page.getByRole('button', { name: 'build', exact: true }).click()
  } else await take(page, 'sitter')
  await measures(page).click()
  expect(await axe(page)).toEqual([])
  for (const name of ['sitter eye depth', 'sitter shoulder breadth', 'sitter feminine to masculine']) {
    const box = await field(page, name).boundingBox()
    expect(box && box.x >= 0 && box.x + box.width <= width, name).toBe(true)
  }
  await host.leave()
})
