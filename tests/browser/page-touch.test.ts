/** Every handle of both drawings under a finger, a mouse and the keys; a slider under a thumb; views by axe that other files leave out. */
import { readFileSync } from 'node:fs'
import type { CDPSession, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import {
  axe,
  axeOnSmall,
  dragBy,
  fingerBy,
  grip,
  hostPage,
  middleOf,
  type PageHost,
  shownIn,
  touch,
  undoButton,
} from './page-host'

let host: PageHost
let page: Page
let hand: CDPSession
beforeAll(async () => {
  host = await hostPage()
  page = await host.visit({ viewport: { width: 1024, height: 768 }, hasTouch: true })
  hand = await page.context().newCDPSession(page)
})
afterAll(async () => {
  await host?.leave()
  await host?.close()
})

const word = (name: string | RegExp) => page.getByRole('button', { name, exact: true })

async function tapTwice(held: Locator): Promise<void> {
  const at = await middleOf(held)
  // Not awaited one by one: a busy machine would make two single taps of them.
  await Promise.all([0, 1].flatMap(() => [touch(hand, 'touchStart', at), touch(hand, 'touchEnd')]))
}

async function saved(): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), word('save').click()])
  return readFileSync(await download.path(), 'utf8')
}

/** Arrow keys until one moves it: a backdrop goes only to and fro. */
async function byKeys(held: Locator): Promise<void> {
  const before = await undoButton(page).textContent()
  for (const key of ['ArrowRight', 'ArrowUp']) {
    await held.locator('xpath=..').press(key)
    if ((await undoButton(page).textContent()) !== before) return
  }
}

/** What each drawing has in hand. */
const HANDLES = {
  Plan: ['source', 'panel', 'sitter', 'nose', 'object', 'camera', 'backdrop'],
  Elevation: ['source', 'panel', 'sitter', 'object', 'camera', 'backdrop'],
} as const

const WAYS: Readonly<Record<string, (held: Locator) => Promise<unknown>>> = {
  finger: (held) => fingerBy(hand, held, 24, 18),
  keys: byKeys,
  mouse: (held) => dragBy(page, held, 24, 18),
}

test('sources, panels, sitters, objects, camera and backdrop move under finger, mouse and keys, each move a step with a name', async () => {
  await page.setViewportSize({ width: 1440, height: 900 })
  await word('add').tap()
  await page.locator('.things .list').getByRole('button', { name: 'matt ball', exact: true }).tap()
  await page.setViewportSize({ width: 1024, height: 768 })
  const step = () => undoButton(page).textContent()
  const last = await step()
  const before = await saved()
  for (const drawing of ['Plan', 'Elevation'] as const) {
    // The elevation square to a source has that alone in hand.
    const ready = async () => {
      if (drawing === 'Elevation') await page.locator('.plan [data-target=camera]').press('Enter')
      // Drawn anew, before a handle's place is asked for.
      await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
    }
    await ready()
    const handles = page.getByRole('region', { name: drawing }).locator('[data-target]')
    const targets = await handles.evaluateAll((all) => all.map((handle) => handle.getAttribute('data-target')!))
    const kinds = new Set(targets.map((target) => target.split(' ')[0]))
    for (const kind of HANDLES[drawing]) expect(kinds, drawing).toContain(kind)
    // Way by way, as a second press within a moment puts a thing back.
    for (const [way, move] of Object.entries(WAYS))
      for (const target of targets) {
        await ready()
        await move(grip(page, drawing, target))
        const told = `${drawing}: ${target} by ${way}`
        await expect.poll(step, { message: told }).not.toBe(last)
        expect(await step(), told).toMatch(/^undo: \S/)
        await undoButton(page).click()
        expect(await step(), told).toBe(last)
      }
  }
  expect(await saved()).toBe(before)
})

test('two taps put a source back; on a phone the picture stays in view under a thumb that slides', async () => {
  await grip(page, 'Plan', 'source key').tap()
  await page.waitForTimeout(400)
  const round = await shownIn(page, 'A round')
  await fingerBy(hand, grip(page, 'Plan', 'source key'), -60, 40)
  expect(await shownIn(page, 'A round')).not.toBe(round)
  await page.waitForTimeout(400)
  await tapTwice(grip(page, 'Plan', 'source key'))
  expect(await shownIn(page, 'A round')).toBe(round)
  await page.setViewportSize({ width: 390, height: 844 })
  const tape = page.getByRole('slider', { name: 'A tape' }).first()
  if (!(await tape.isVisible()))
    await page.locator('.pages').getByRole('button', { name: 'A', exact: false }).first().tap()
  const was = await shownIn(page, 'A tape')
  const [x, y] = await middleOf(tape)
  await touch(hand, 'touchStart', [x, y])
  await touch(hand, 'touchMove', [x + 40, y + 3])
  const picture = (await page.locator('#picture').boundingBox())!
  expect(picture.y).toBeGreaterThanOrEqual(0)
  expect(picture.y + picture.height).toBeLessThan(y)
  expect(await shownIn(page, 'A tape')).not.toBe(was)
  await touch(hand, 'touchEnd')
  await page.setViewportSize({ width: 1024, height: 768 })
})

test('a reading that is pointed at or holds the focus rings its place on picture, plan and elevation; the set is flipped and back; the picture fills the screen', async () => {
  await page.setViewportSize({ width: 1440, height: 900 })
  const reading = page.locator('.reading').first()
  await reading.waitFor({ timeout: 120_000 })
  const rings = page.locator('.place-mark, .plan .place-ring, .elevation .place-ring')
  await reading.hover()
  await expect.poll(() => rings.count()).toBe(3)
  await word('save').hover()
  await expect.poll(() => rings.count()).toBe(0)
  await reading.getByRole('button').first().focus()
  await expect.poll(() => rings.count()).toBe(3)
  await word('save').focus()
  await expect.poll(() => rings.count()).toBe(0)
  const before = await saved()
  const round = await shownIn(page, 'A round')
  // The browser takes the first tap after a flick, such as the thumb's of before, for a hand laid on what still slides.
  await page.touchscreen.tap(640, 20)
  await word('flip').tap()
  // A tap's click comes a moment after the touch.
  await expect.poll(() => shownIn(page, 'A round')).toBe(round.replace('right', 'left'))
  await word('flip').tap()
  await expect.poll(() => shownIn(page, 'A round')).toBe(round)
  expect(JSON.parse(await saved()).sources).toEqual(JSON.parse(before).sources)
  await word('full screen').tap()
  await expect.poll(() => page.evaluate(() => document.fullscreenElement?.id)).toBe('picture')
  await page.keyboard.press('Shift')
  await expect.poll(() => page.evaluate(() => document.fullscreenElement)).toBeNull()
  await page.setViewportSize({ width: 1024, height: 768 })
})

/** Presses a word; what then moves by the clock, and not with a column that scrolls. */
const movesAfter = (pressed: Locator) =>
  pressed.evaluate(async (button: HTMLElement) => {
    button.click()
    await new Promise((resolve) => setTimeout(resolve))
    const all = document.getAnimations()
    return all.filter(({ timeline, playState }) => timeline === document.timeline && playState === 'running').length
  })

test('a why unfolds, and with reduced motion it stands there at once; its formula and the help are nothing for axe in each size and theme', async () => {
  const why = page.getByRole('button', { name: /^(why|close): f\/8/ }).first()
  await why.waitFor({ timeout: 120_000 })
  expect(await movesAfter(why)).toBeGreaterThan(0)
  await why.tap()
  await page.locator('.why').waitFor({ state: 'detached' })
  await page.emulateMedia({ reducedMotion: 'reduce' })
  expect(await movesAfter(why)).toBe(0)
  await page.locator('.why .filled').first().waitFor()
  expect([...(await axe(page)), ...(await axeOnSmall(page))]).toEqual([])
  await word('help').tap()
  await page.getByRole('searchbox', { name: 'find in the help' }).fill('softbox')
  expect([...(await axe(page)), ...(await axeOnSmall(page))]).toEqual([])
})
