/** A lesson without graphics, by keys: nothing shows before the prediction is in, a goal is judged on the working surface. */
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readLesson } from '../../src/lesson'
import { axe, axeOnSmall, hostPage, type PageHost, undoButton } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

/** F freezes A, then cuts to B in the same place; whatever is pressed, no second sees more than three changes (WCAG 2.3.1, three flashes or below). */
async function freezeFlickers(page: Page): Promise<void> {
  const frozen = page.locator('.freeze > p').first()
  await page.waitForTimeout(450)
  await page.keyboard.press('f')
  await frozen.getByText('A', { exact: true }).waitFor()
  const place = await page.locator('.freeze .held').boundingBox()
  await page.waitForTimeout(450)
  await page.keyboard.press('f')
  await frozen.getByText('B', { exact: true }).waitFor()
  expect(await page.locator('.freeze .held').boundingBox()).toEqual(place)
  const changes = await page.evaluate(async () => {
    const lesson = document.querySelector('.lesson')!
    // What is large on the wall: which frozen picture, if any, and whether the wall is black.
    const seen = () =>
      `${lesson.className} ${document.querySelector('.freeze b')?.textContent} ${document.querySelector('[aria-current=step]')?.textContent}`
    const times: number[] = []
    let last = seen()
    const look = () => {
      if (seen() === last) return
      last = seen()
      times.push(performance.now())
    }
    new MutationObserver(look).observe(document.body, {
      subtree: true,
      childList: true,
      attributes: true,
      characterData: true,
    })
    const projector = [...lesson.querySelectorAll('button')].find(({ textContent }) => textContent === 'projector')!
    const end = performance.now() + 3000
    for (let i = 0; performance.now() < end; i++) {
      if (i % 5 === 4) projector.click()
      else {
        const key = ['f', 'Escape', 'f', 'PageDown'][i % 5]!
        // Shut, the lesson would be left by Escape.
        if (key !== 'Escape' || document.querySelector('.freeze'))
          (document.querySelector('.freeze') ?? lesson).dispatchEvent(
            new KeyboardEvent('keydown', { key, bubbles: true }),
          )
      }
      await new Promise((resolve) => setTimeout(resolve, 15))
    }
    return times
  })
  expect(changes.length).toBeGreaterThan(3)
  for (const from of changes)
    expect(changes.filter((at) => at >= from && at < from + 1000).length).toBeLessThanOrEqual(3)
  while ((await page.locator('[aria-current="step"]').textContent()) !== 'predict' || (await frozen.count())) {
    await page.waitForTimeout(450)
    await page.keyboard.press((await frozen.count()) ? 'Escape' : 'PageUp')
  }
  if (await page.locator('.lesson.projected').count()) {
    await page.waitForTimeout(450)
    await page.getByRole('button', { name: 'projector' }).click()
  }
}

/** Printed, all predictions stand on the first page and no answer; answers begin the next. The pages are read by pdf.js. */
async function handoutOnPaper(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'handout', exact: true }).press('Enter')
  await expect
    .poll(() => page.getByRole('button', { name: 'print', exact: true }).isEnabled(), { timeout: 120_000 })
    .toBe(true)
  expect(await page.getByRole('article', { name: 'Answers' }).isVisible()).toBe(false)
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs')
  const pdf = await getDocument({ data: new Uint8Array(await page.pdf({ format: 'A4' })), verbosity: 0 }).promise
  const pages = await Promise.all(
    Array.from({ length: pdf.numPages }, async (_, i) => {
      const { items } = await (await pdf.getPage(i + 1)).getTextContent()
      return items.map((item) => ('str' in item ? item.str : '')).join(' ')
    }),
  )
  const first = pages.findIndex((text) => text.includes(': answers'))
  expect(pages[0]).toContain(': predictions')
  expect(first).toBe(1)
  expect(pages[0]).not.toContain('right within')
  for (const text of pages.slice(first)) expect(text).not.toContain(': predictions')
  await page.getByRole('button', { name: 'back to the lesson' }).press('Enter')
}

test('predict, then see; a goal says by how much it is missed; a teacher writes a lesson', async () => {
  const page = await host.visit({ viewport: { width: 1024, height: 768 } })
  const word = page.getByRole('button', { name: 'lessons', exact: true })
  await word.press('Enter')
  await page.getByRole('button', { name: 'Why is this big box hard?' }).press('Enter')
  await page.getByText('after the prediction').first().waitFor()
  // What is hidden is not in the page at all, and the way on is shut.
  const mended = page.locator('.lesson-pictures > li').nth(1)
  expect(await mended.locator('canvas').count()).toBe(0)
  await page.keyboard.press('PageDown')
  const lock = page.getByRole('button', { name: 'lock and show' })
  expect(await lock.isDisabled()).toBe(true)
  // Where the answer stood no key is heard once it is in: they must be heard all the same.
  await page.getByRole('radio').nth(1).press(' ')
  await page.keyboard.press('Enter')
  await page.getByText('Right', { exact: true }).waitFor({ timeout: 120_000 })
  expect(await mended.locator('canvas').count()).toBe(2)
  expect([...(await axe(page)), ...(await axeOnSmall(page))]).toEqual([])
  await freezeFlickers(page)
  await handoutOnPaper(page)
  // Held keys change the picture at most every 0.4 s: two steps in one breath are one.
  await page.waitForTimeout(450)
  await page.keyboard.press('PageDown')
  await page.keyboard.press('PageDown')
  expect(await page.locator('[aria-current="step"]').textContent()).toBe('measure')
  for (const kind of ['explain', 'try']) {
    await page.waitForTimeout(450)
    await page.keyboard.press('PageDown')
    expect(await page.locator('[aria-current="step"]').textContent()).toBe(kind)
  }
  await page.getByRole('button', { name: 'begin on the working surface' }).press('Enter')
  expect(await undoButton(page).textContent()).toContain('as found')
  const judge = page.getByRole('button', { name: 'judge', exact: true })
  await judge.press('Enter', { timeout: 120_000 })
  await page.getByText(/misses by \d+ mm \(under\)/).waitFor()
  await page.getByRole('button', { name: 'back to the lesson' }).press('Enter')
  await page.keyboard.press('Home')
  await page.getByText('after the prediction').first().waitFor()
  await page.keyboard.press('Escape')
  expect(await word.evaluate((button) => button === document.activeElement)).toBe(true)
  // A teacher writes one of the set as it stands, and its file is a lesson.
  await word.press('Enter')
  await page.getByRole('button', { name: 'all lessons' }).press('Enter')
  await page.getByRole('button', { name: 'write a lesson' }).press('Enter')
  await page.getByRole('textbox', { name: 'keep the present set as' }).fill('near')
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'predict', exact: true }).press('Enter')
  await page.getByRole('combobox', { name: 'answered by' }).selectOption('choice')
  await page.getByRole('textbox', { name: 'choice 1' }).fill('softer')
  expect(await axeOnSmall(page)).toEqual([])
  const saved = page.waitForEvent('download')
  await page.getByRole('button', { name: 'save as a file' }).press('Enter')
  const result = readLesson(readFileSync(await (await saved).path(), 'utf8'))
  const lesson = 'lesson' in result ? result.lesson : null
  expect(lesson?.sets.map(({ name }) => name)).toEqual(['start', 'near'])
  expect(lesson?.steps).toMatchObject([
    { kind: 'predict', hides: ['near'], answer: { choices: [{ words: 'softer' }, {}] } },
  ])
  await host.leave()
})
