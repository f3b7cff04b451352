import { randomBytes } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { axe, axeOnSmall, hostPage, PAGE_FOLDER, type PageHost, shownIn, type, undoButton } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

const word = (name: string) => ({ name, exact: true })

/**
 * As a phone has it, the browser's own list of what keeps a page from being installed is empty (the manifest's members: W3C Web Application
 * Manifest), and each icon is a PNG as large as the manifest says (its IHDR: PNG, ISO/IEC 15948).
 */
async function canBeInstalled(page: Page): Promise<void> {
  const phone = await page.context().newCDPSession(page)
  await phone.send('Emulation.setDeviceMetricsOverride', {
    width: 390,
    height: 844,
    deviceScaleFactor: 3,
    mobile: true,
  })
  await phone.send('Emulation.setTouchEmulationEnabled', { enabled: true })
  const { data, errors } = await phone.send('Page.getAppManifest')
  expect(errors).toEqual([])
  const { installabilityErrors } = await phone.send('Page.getInstallabilityErrors')
  // A test's profile is a private one, into which nothing is installed.
  expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([])
  const { icons } = JSON.parse(data!) as { readonly icons: readonly { readonly src: string; readonly sizes: string }[] }
  expect(icons.map(({ sizes }) => sizes)).toEqual(expect.arrayContaining(['192x192', '512x512']))
  for (const { src, sizes } of icons) {
    const bytes = Buffer.from(
      await page.evaluate(async (url) => [...new Uint8Array(await (await fetch(url)).arrayBuffer())], src),
    )
    expect(bytes.subarray(0, 8).toString('latin1')).toBe('\x89PNG\r\n\x1a\n')
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(sizes)
  }
  await phone.send('Emulation.setTouchEmulationEnabled', { enabled: false })
  await phone.send('Emulation.clearDeviceMetricsOverride')
  await phone.detach()
}

/** A sitting whose link some chats would cut is given as a file, and no link is shown; the file holds it whole. */
async function longLinkIsAFile(page: Page): Promise<void> {
  const note = randomBytes(20_000).toString('hex')
  const sitting = { ...JSON.parse(readFileSync('scenes/notice-board.sitting.json', 'utf8')), note }
  const file = { name: 'long.sitting.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(sitting)) }
  await page.locator('.bar input[type=file]').setInputFiles(file)
  await page.getByText('undo: long.sitting.json opened').waitFor()
  await page.getByRole('button', word('carry')).click()
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', word('link')).click()])
  expect(JSON.parse(readFileSync(await download.path(), 'utf8')).note).toBe(note)
  const told = await page.getByText(/^The link would have \d+ characters/).textContent()
  expect(Number(/\d+/.exec(told!))).toBeGreaterThan(16_000)
  expect(await page.getByLabel('link to this sitting').count()).toBe(0)
  await page.keyboard.press('Escape')
  await undoButton(page).click()
}

test('carry: sheet, link, no network, a newer page, backup and restore', async () => {
  const page = await host.visit({ serviceWorkers: 'allow', permissions: ['clipboard-read', 'clipboard-write'] })
  await type(page, 'A tape', '1.35 m')
  const carry = page.getByRole('button', word('carry'))
  await carry.click()
  const given = async (name: string) => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', word(name)).click()])
    return readFileSync(await download.path())
  }
  await page.getByText('The readings are still settling.').first().waitFor({ state: 'detached' })
  expect((await given('PDF')).subarray(0, 5).toString()).toBe('%PDF-')
  await page.getByRole('button', word('link')).click()
  const link = await page.getByLabel('link to this sitting').inputValue()
  const backup = await given('back up everything')
  expect([...(await axe(page)), ...(await axeOnSmall(page))]).toEqual([])
  const height = page.getByLabel(/^centre height/)
  await height.fill('1.5')
  const low = /^(\d+) cm too low$/.exec(await height.locator('xpath=../output').textContent().then(String))!
  await page.getByLabel('A alone, disc to A').fill('f/8 + 0.4')
  await page.getByText(/0\.4 stops: lower by 0\.4 stop to 1\/\d+.* or move to 1\.\d\d m\./).waitFor()
  await page.getByText(/^Kit and packing: 0 of/).click()
  await page.getByLabel('tripod', { exact: true }).last().check()
  await page.getByText(/^Kit and packing: 1 of/).waitFor()
  await page.keyboard.press('Escape')
  expect(await carry.evaluate((element) => document.activeElement === element)).toBe(true)

  // Typed in metres, and still so where the page counts in feet: 2.54 cm to the inch.
  await page.getByRole('button', { name: /^lengths in metres/ }).click()
  await carry.click()
  expect(await height.inputValue()).toBe('1.5 m')
  const inches = /^([\d.]+) in too low$/.exec(await height.locator('xpath=../output').textContent().then(String))!
  expect(Math.abs(Number(inches[1]) * 2.54 - Number(low[1]))).toBeLessThan(0.7)
  await height.fill('')
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: /^lengths in feet/ }).click()

  await type(page, 'A tape', '2 m')
  // A damaged link is told in place and changes nothing; a whole one is a step.
  await page.evaluate((hash) => location.assign(hash), link.replace(/^[^#]*/, '').slice(0, -9))
  await page.getByRole('alert').getByText('The link was not opened').waitFor()
  expect(await shownIn(page, 'A tape')).toBe('2.00 m')
  await page.evaluate((hash) => location.assign(hash), link.replace(/^[^#]*/, ''))
  await expect.poll(() => shownIn(page, 'A tape')).toBe('1.35 m')
  expect(await undoButton(page).textContent()).toBe('undo: The link opened')

  await type(page, 'A tape', '1.60 m')
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  await canBeInstalled(page)
  await longLinkIsAFile(page)
  await page.waitForTimeout(600)
  await page.context().setOffline(true)
  await page.reload()
  await expect.poll(() => shownIn(page, 'A tape')).toBe('1.60 m')
  // What the link was laid over is still a step away.
  expect(await undoButton(page).textContent()).toBe('undo: The link opened')
  await undoButton(page).click()
  expect(await shownIn(page, 'A tape')).toBe('2.00 m')
  await page.getByRole('button', { name: /^redo/ }).click()
  await page.context().setOffline(false)

  // A newer build waits until it is asked for; then the page is the newer one and the desk is as it was.
  const worker = join(PAGE_FOLDER, 'sw.js')
  const old = readFileSync(worker, 'utf8')
  try {
    writeFileSync(worker, old.replace(/VERSION = '\w+'/, "VERSION = 'newer'"))
    await page.evaluate(() => navigator.serviceWorker.ready.then((known) => known.update()).then(() => undefined))
    const update = page.getByRole('button', word('update'))
    await update.waitFor()
    await Promise.all([page.waitForEvent('load'), update.click()])
    await expect.poll(() => page.evaluate(() => caches.keys())).toContain('halfshade-files-newer')
    await expect.poll(() => shownIn(page, 'A tape')).toBe('1.60 m')
  } finally {
    writeFileSync(worker, old)
  }

  // What was typed and ticked for the sitting before it was changed is offered, and becomes a sitting.
  await carry.click()
  await page.getByText('The readings are still settling.').first().waitFor({ state: 'detached' })
  await page.getByText(/^Kit and packing: 0 of/).waitFor()
  await page.getByText('1 tick, 1 figure').waitFor()
  await page.getByRole('button', { name: /^go on with/ }).click()
  await page.getByText(/^Kit and packing: 1 of/).waitFor()
  await page.getByRole('button', word('make it a sitting')).click()
  await page
    .locator('.bar .title')
    .getByText(/, as built$/)
    .waitFor()
  expect(await undoButton(page).textContent()).toBe('undo: sitting as built')
  await carry.click()
  const file = { name: 'all.backup.json', mimeType: 'application/json', buffer: backup }
  const input = page.getByLabel('open a backup', { exact: true })
  await input.setInputFiles({ ...file, buffer: Buffer.from(backup.toString().replace('"version": 1', '"version": 9')) })
  await page.getByText('version: expected 1, got 9').waitFor()
  await input.setInputFiles(file)
  await Promise.all([page.waitForEvent('load'), page.getByRole('button', word('restore it')).click()])
  await expect.poll(() => shownIn(page, 'A tape')).toBe('1.35 m')

  // Typed for the day and closed at once: nothing waits for what is still unwritten.
  await carry.click()
  await page.getByText('The readings are still settling.').first().waitFor({ state: 'detached' })
  await height.fill('1.61')
  // A photo of the real set, here a picture of ours, stays with the day.
  await page.getByLabel('attach a photo', { exact: true }).setInputFiles('public/icon-512.png')
  await page.getByText('icon-512.png is attached.').waitFor()
  const next = await host.again(page)
  await next.getByRole('button', word('carry')).click()
  await next.getByText('The readings are still settling.').first().waitFor({ state: 'detached' })
  await expect.poll(() => next.getByLabel(/^centre height/).inputValue()).toBe('1.61')
  const photo = next.getByRole('img', { name: 'The real set, as photographed' })
  await expect.poll(() => photo.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(512)
  await host.leave()
})
