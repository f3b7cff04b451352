/**
 * How long the page's own thread is held up while a processor draws the picture: long tasks of the browser (over 50 ms) by what
 * was done before them. node tests/bench/blocked.mjs, after npm run build. Outside CI.
 */

import { readFileSync } from 'node:fs'
import { createServer } from 'node:http'
import { extname, join } from 'node:path'
import { chromium } from 'playwright-core'
import { needChromium, SOFTWARE_FLAGS } from '../../src/commands/chromium.mjs'

const TYPES = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.woff2': 'font/woff2' }
/** After each step, ms: what it set off has been answered by then. */
const REST_MS = 2500

const server = createServer((request, response) => {
  const path = new URL(request.url, 'http://here').pathname.replace(/\/$/, '/index.html')
  try {
    const bytes = readFileSync(join('dist', path))
    response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' }).end(bytes)
  } catch {
    response.writeHead(404).end()
  }
})
await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve))
const browser = await chromium.launch({ executablePath: needChromium(), args: SOFTWARE_FLAGS })
const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
await page.addInitScript(() => {
  window.longTasks = []
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) window.longTasks.push(duration)
  }).observe({ entryTypes: ['longtask'] })
})

const rows = []
async function step(name, act) {
  await page.evaluate(() => window.longTasks.splice(0))
  await act()
  await page.waitForTimeout(REST_MS)
  const all = await page.evaluate(() => window.longTasks.splice(0))
  rows.push({ step: name, longTasks: all.length, longestMs: Math.round(Math.max(0, ...all)) })
}

const word = (name) => page.getByRole('button', { name, exact: true })
const type = async (name, text) => {
  await page.getByRole('textbox', { name: `${name}, typed` }).fill(text)
  await page.keyboard.press('Enter')
}
const drag = (drawing, target, dx, dy) => async () => {
  const box = await page.getByRole('region', { name: drawing }).locator(`[data-target="${target}"] .grip`).boundingBox()
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 1; i <= 30; i++) await page.mouse.move(x + (dx * i) / 30, y + (dy * i) / 30)
  await page.mouse.up()
}
const add = (name) => async () => {
  await word('add').click()
  await page.locator('.things .list').getByRole('button', { name, exact: true }).click()
}

await page.goto(`http://127.0.0.1:${server.address().port}/`)
await page.getByText(/\d samples|within \d|finished/).waitFor({ state: 'attached', timeout: 300_000 })
rows.push({
  step: 'loading',
  longTasks: null,
  longestMs: Math.round(Math.max(0, ...(await page.evaluate(() => window.longTasks)))),
})
await step('key dragged on the plan', drag('Plan', 'source key', -140, 40))
await step('key dragged on the elevation', drag('Elevation', 'source key', 0, -40))
await step('tape typed', () => type('A tape', '1.4 m'))
await step('kind swapped', () => page.getByRole('combobox', { name: 'A kind' }).selectOption('softbox'))
await step('source added', add('source'))
await step('panel added', add('black panel'))
await step('second sitter added', add('second sitter'))
await step('sitter in hand', () => word('sitter').click())
await step('head turned', () => type('sitter head', '30 right'))
await step('camera in hand', () => word('camera').click())
await step('focal length', () => type('camera focal', '85'))
await step('undo', () => page.getByRole('button', { name: /^undo/ }).click())
console.table(rows)
await browser.close()
server.close()
