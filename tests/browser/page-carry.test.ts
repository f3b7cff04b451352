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
  await page.getByRole('button', word('carry and print')).click()
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', word('link')).click()])
  expect(JSON.parse(readFileSync(await download.path(), 'utf8')).note).toBe(note)
  const told = await page.getByText(/^The link would have \d+ characters/).textContent()
  expect(Number(/\d+/.exec(told!))).toBeGreaterThan(16_000)
  expect(await page.getByLabel('link to this sitting').count()).toBe(0)
  await page.keyboard.press('Escape')
  await undoButton(page).click()
}

/** The sheet as one HTML file, opened as a file is: nothing runs out of a phone, or of its drawings; printed, drawings are as large as they say. */
async function htmlSheet(page: Page, html: string): Promise<void> {
  const sheet = await page.context().newPage()
  await sheet.setViewportSize({ width: 390, height: 844 })
  await sheet.setContent(html)
  expect(await sheet.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  await sheet.getByRole('checkbox', { name: '1, tripod' }).check()
  expect(await axe(sheet)).toEqual([])
  // How far words reach out of their drawing, CSS pixels.
  const outside = await sheet.locator('svg text').evaluateAll((texts) =>
    texts.map((text) => {
      const [words, drawing] = [text, text.closest('svg')!].map((element) => element.getBoundingClientRect())
      return Math.max(drawing!.left - words!.left, words!.right - drawing!.right, drawing!.top - words!.top)
    }),
  )
  expect(outside.length).toBeGreaterThan(8)
  expect(Math.max(...outside)).toBeLessThan(4)
  await sheet.emulateMedia({ media: 'print' })
  const sizes = await sheet
    .locator('svg')
    .evaluateAll((all) => all.map((svg) => [svg.getAttribute('width')!, svg.getBoundingClientRect().width]))
  // CSS: 96 px to the inch of 25.4 mm.
  for (const [says, px] of sizes)
    expect(Math.abs(Number.parseFloat(String(says)) - (Number(px) * 25.4) / 96)).toBeLessThan(0.5)
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs')
  const pdf = await getDocument({ data: new Uint8Array(await sheet.pdf({ format: 'Letter' })), verbosity: 0 }).promise
  const texts = await Promise.all(
    Array.from({ length: pdf.numPages }, async (_, i) => (await (await pdf.getPage(i + 1)).getTextContent()).items),
  )
  // Letters are set one by one where they are kerned: blanks count for nothing.
  const bare = (text: string) => text.replace(/\s/g, '')
  const words = bare(
    texts
      .flat()
      .map((item) => ('str' in item ? item.str : ''))
      .join(''),
  )
  for (const part of ['Camera', 'Tape on the floor', 'Meter', 'Order of work', 'Kit and packing', 'Plan', 'First: bag'])
    expect(words).toContain(bare(part))
  await sheet.close()
}

/** Off the network on a phone: the list is ticked, what was read is weighed against the plan, and the sheet is written. */
async function carryOnAPhone(page: Page, given: (name: string) => Promise<Buffer>): Promise<void> {
  const before = page.viewportSize()!
  await page.setViewportSize({ width: 390, height: 844 })
  await page.locator('.pages').getByRole('button', word('more')).click()
  await page.getByRole('button', word('carry and print')).click()
  await page.getByText('The readings are still settling.').first().waitFor({ state: 'detached' })
  await page.getByText(/^Kit and packing: 0 of/).click()
  const tripod = page.getByLabel('tripod', { exact: true }).last()
  await tripod.check()
  await page.getByText(/^Kit and packing: 1 of/).waitFor()
  const alone = page.getByLabel('A alone, disc to A')
  await alone.fill('f/8 + 0.4')
  await page.getByText(/0\.4 stops: lower by 0\.4 stop/).waitFor()
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  expect((await given('PDF file, to print')).subarray(0, 5).toString()).toBe('%PDF-')
  await htmlSheet(page, (await given('one HTML file for a phone')).toString())
  await tripod.uncheck()
  await alone.fill('')
  await page.keyboard.press('Escape')
  await page.setViewportSize(before)
}

test('carry: sheet, link, no network, a newer page, backup and restore', async () => {
  const page = await host.visit({ serviceWorkers: 'allow', permissions: ['clipboard-read', 'clipboard-write'] })
  await type(page, 'A tape', '1.35 m')
  const carry = page.getByRole('button', word('carry and print'))
  await carry.click()
  const given = async (name: string) => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', word(name)).click()])
    return readFileSync(await download.path())
  }
  await page.getByText('The readings are still settling.').first().waitFor({ state: 'detached' })
  expect((await given('PDF file, to print')).subarray(0, 5).toString()).toBe('%PDF-')
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
  await carryOnAPhone(page, given)
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
  await next.getByRole('button', word('carry and print')).click()
  await next.getByText('The readings are still settling.').first().waitFor({ state: 'detached' })
  await expect.poll(() => next.getByLabel(/^centre height/).inputValue()).toBe('1.61')
  const photo = next.getByRole('img', { name: 'The real set, as photographed' })
  await expect.poll(() => photo.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(512)
  await host.leave()
})
