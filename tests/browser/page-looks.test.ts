import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { axe, axeInBoth, hostPage, type PageHost, type, undoButton } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

describe('views in the picture', () => {
  test('by keyboard: a crop has its millimetres at the edge, Escape goes back, and the sitting knows nothing of it', async () => {
    const page = await host.visit()
    const word = (name: string) => page.getByRole('button', { name, exact: true })
    const scale = page.getByRole('img', { name: /^Scale at the/ })
    expect(await word('picture').getAttribute('aria-pressed')).toBe('true')
    expect(await scale.count()).toBe(0)
    await word('eye crop').focus()
    await page.keyboard.press('Enter')
    // 105 mm from 1.5 m on a frame 24 mm wide: 343 mm across, a fifth of it in the crop.
    expect(await scale.getAttribute('aria-label')).toBe('Scale at the eye: 68 mm across, a mark each mm')
    await type(page, 'A round', '30 right')
    await word('cheek crop').focus()
    await page.keyboard.press('Space')
    expect(await scale.getAttribute('aria-label')).toMatch(/^Scale at the cheek: 11\d mm across, a mark each 2 mm$/)
    expect(await word('eye crop').getAttribute('aria-pressed')).toBe('false')
    await undoButton(page).click()
    expect(await word('cheek crop').getAttribute('aria-pressed')).toBe('true')
    expect(await undoButton(page).isDisabled()).toBe(true)
    await word('profile').focus()
    await page.keyboard.press('Enter')
    expect(await scale.count()).toBe(0)
    await page.keyboard.press('Escape')
    expect(await word('picture').getAttribute('aria-pressed')).toBe('true')
    await host.leave()
  })

  test('on a phone they stand with the takes', async () => {
    const page = await host.visit({ viewport: { width: 390, height: 844 } })
    const crop = page.getByRole('button', { name: 'eye crop', exact: true })
    expect(await crop.isVisible()).toBe(false)
    await page.getByRole('button', { name: 'takes', exact: true }).click()
    await crop.click()
    expect(await axe(page)).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
    await host.leave()
  })
})

describe('what the cheek sees', () => {
  const SIZES = [
    { name: 'desk', width: 1440, height: 900 },
    { name: 'tablet', width: 1024, height: 768 },
    { name: 'phone', width: 390, height: 844 },
  ] as const
  test.each(SIZES)(
    '$name: by keyboard, from place to place, with its shares in words; nothing for axe',
    async (size) => {
      const page = await host.visit({ viewport: size })
      page.setDefaultTimeout(120_000)
      if (size.name === 'phone') await page.getByRole('button', { name: 'takes', exact: true }).click()
      await page.getByRole('button', { name: 'what the cheek sees', exact: true }).focus()
      await page.keyboard.press('Enter')
      const panel = page.getByRole('region', { name: 'What the skin sees' })
      const far = panel.getByRole('img', { name: /^What the cheek away from the key sees/ })
      await far.waitFor()
      expect(await far.getAttribute('aria-label')).toMatch(/A \d+ %, white panel \d+ %, room \d+ %/)
      const place = panel.getByRole('combobox', { name: 'Seen from the' })
      await place.focus()
      await page.keyboard.press('ArrowDown')
      const disc = panel.getByRole('img', { name: /^What the near cheek sees/ })
      await disc.waitFor()
      // The near cheek faces the key: most of its light comes from there.
      expect(await disc.getAttribute('aria-label')).toMatch(/A 9\d %, room \d %/)
      expect(await panel.locator('.shares').textContent()).toMatch(/^f\/[\d. +]+\s+falls there, disc flat on the skin/)
      const box = (await disc.boundingBox())!
      expect(Math.min(box.width, box.height)).toBeGreaterThan(120)
      expect(await axeInBoth(page)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(size.width)
      await place.focus()
      await page.keyboard.press('Escape')
      expect(await panel.count()).toBe(0)
      await host.leave()
    },
  )

  test('it follows the set: without a source no light falls there', async () => {
    const page = await host.visit()
    page.setDefaultTimeout(120_000)
    await page.getByRole('button', { name: 'what the cheek sees', exact: true }).click()
    const panel = page.getByRole('region', { name: 'What the skin sees' })
    await panel.getByText('falls there, disc flat on the skin:').waitFor()
    await page.getByRole('button', { name: 'on', exact: true }).first().click()
    await panel.getByText('no light falls there.').waitFor()
    await undoButton(page).click()
    await panel.getByText('falls there, disc flat on the skin:').waitFor()
    await host.leave()
  })
})
