/** A lesson without graphics, by keys: nothing shows before the prediction is in, a goal is judged on the working surface. */
import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readLesson } from '../../src/lesson'
import { axe, axeOnSmall, hostPage, type PageHost, undoButton } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

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
