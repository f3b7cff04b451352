import { readFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join } from 'node:path'
import AxeBuilder from '@axe-core/playwright'
import type { Browser, BrowserContext, BrowserContextOptions, CDPSession, Locator, Page } from 'playwright-core'
import { build, type Plugin } from 'vite'
import { expect } from 'vitest'
import { SETTLED_PATHS } from '../../src/readings'
import { browserWith } from './browsers'

const WITHOUT_GL = ['--no-sandbox', '--disable-gpu', '--disable-3d-apis']
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
}

/** The built page on a server of plain files, and browsers with and without 3D graphics. */
export interface PageHost {
  visit(options?: OpenOptions): Promise<Page>
  /** Closes a page as one closes a tab, and opens the address anew in the same browser profile. */
  again(page: Page): Promise<Page>
  /** One more tab of the same browser profile. */
  beside(page: Page): Promise<Page>
  /** What was complained of so far in the open pages; it counts no longer. */
  complaints(): string[]
  /** Closes the pages of a test, and holds each to its silence: no error, no warning, no request elsewhere. */
  leave(): Promise<void>
  /** Closes what a test that failed left open. */
  close(): Promise<void>
}

export interface OpenOptions extends BrowserContextOptions {
  readonly graphics?: boolean
}

interface OpenProfile {
  readonly context: BrowserContext
  /** Errors and warnings on the console, of pages and of their threads, and errors that nothing caught. */
  readonly complaints: string[]
  /** Requests to anything but the page's own server. */
  readonly strangers: string[]
}

/** Playwright's own words where it keeps service workers out; nothing else that a console says is left out. */
const NOT_OURS = 'Service Worker registration blocked by Playwright'

/** The page lies below a path, as on a host with other things on it: what it asks for anywhere else is a stranger's. */
const BELOW = '/some/where/'

/** Where a file of the page lies in its folder, by the path of its address. */
export function pathBelow(pathname: string): string {
  if (!pathname.startsWith(BELOW)) throw new Error(`${pathname}: nothing of the page`)
  return pathname.slice(BELOW.length)
}

/** The built page's address: built and served once a worker, for all of its files. */
let address: Promise<string> | null = null

/** Where it lies. */
export const PAGE_FOLDER = join('node_modules', `.page-under-test-${process.env.VITEST_POOL_ID ?? 0}`)

/** AGREEMENT=all: the page draws and reads as long as the one that ships. */
const ALL = process.env.AGREEMENT === 'all'
/** Paths of bounced light at each place until the readings of the page under test count as settled. */
export const PATHS = ALL ? SETTLED_PATHS : 256

/** A picture of 512 samples a source, and readings of 1,024 paths, keep a processor for minutes, which the tests beside it would wait for. */
const BRIEFLY: Readonly<Record<string, readonly [find: string, put: string]>> = {
  'readings/settled.ts': ['SETTLED_PATHS = 1024', `SETTLED_PATHS = ${PATHS}`],
  'ui/picture/timing.ts': ['TARGET = 512', 'TARGET = 32'],
  'ui/contact/contact-worker.ts': ['all: [192], whole: [64, 192, TARGET]', 'all: [TARGET], whole: [TARGET]'],
}
const drawnBriefly: Plugin = {
  name: 'drawn-briefly',
  enforce: 'pre',
  transform(code, id) {
    const [, edit] = Object.entries(BRIEFLY).find(([file]) => id.endsWith(`/src/${file}`)) ?? []
    if (!edit) return null
    if (!code.includes(edit[0])) throw new Error(`page-host.ts: "${edit[0]}" stands no more in ${id}`)
    return code.replace(...edit)
  },
}

async function buildAndServe(): Promise<string> {
  const mode = process.env.NODE_ENV
  // The test runner's own mode would bring React's development build: what is tested is what ships.
  process.env.NODE_ENV = 'production'
  await build({
    logLevel: 'error',
    plugins: ALL ? [] : [drawnBriefly],
    build: { outDir: PAGE_FOLDER, emptyOutDir: true },
  })
  process.env.NODE_ENV = mode
  const server = serve(PAGE_FOLDER)
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}${BELOW}`
}

export async function hostPage(): Promise<PageHost> {
  address ??= buildAndServe()
  const url = await address
  const opened: OpenProfile[] = []
  const openTab = async (context: BrowserContext): Promise<Page> => {
    const page = await context.newPage()
    await page.goto(url)
    await page.getByRole('slider', { name: 'A tape' }).first().waitFor()
    return page
  }
  return {
    // Files kept on the device are for the test that asks for them: every page would fetch all of them once more.
    visit: async ({
      graphics = false,
      viewport = { width: 1440, height: 900 },
      serviceWorkers = 'block',
      ...options
    } = {}) => {
      const browser = await (graphics ? browserWith() : browserWith(WITHOUT_GL))
      const profile = await openProfile(browser, url, { viewport, serviceWorkers, ...options })
      opened.push(profile)
      return openTab(profile.context)
    },
    again: async (page) => {
      const context = page.context()
      await page.close()
      return openTab(context)
    },
    beside: (page) => openTab(page.context()),
    complaints: () => opened.flatMap(({ complaints }) => complaints.splice(0)),
    leave: async () => {
      for (const { context, complaints, strangers } of opened.splice(0)) {
        await context.close()
        expect(complaints).toEqual([])
        expect(strangers).toEqual([])
      }
    },
    close: async () => {
      for (const { context } of opened.splice(0)) await context.close()
    },
  }
}

function serve(folder: string): Server {
  return createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://here')
    try {
      const path = pathBelow(pathname).replace(/^$/, 'index.html')
      const bytes = readFileSync(join(folder, path))
      response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' }).end(bytes)
    } catch {
      response.writeHead(404).end()
    }
  })
}

async function openProfile(browser: Browser, url: string, options: BrowserContextOptions): Promise<OpenProfile> {
  const context = await browser.newContext(options)
  const complaints: string[] = []
  const strangers: string[] = []
  context.on('console', (message) => {
    if (/^(error|warning)$/.test(message.type()) && message.text() !== NOT_OURS) complaints.push(message.text())
  })
  context.on('weberror', (fault) => complaints.push(String(fault.error().stack ?? fault.error())))
  context.on('request', (request) => {
    const address = request.url()
    if (!address.startsWith(url) && !/^(data|blob):/.test(address)) strangers.push(address)
  })
  return { context, complaints, strangers }
}

/** What axe finds on the whole page by all rules that it runs by itself, in words: none is left out, nor any part. */
export async function axe(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze()
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)
}

/** The same in both themes, as the page stands. */
export async function axeInBoth(page: Page): Promise<string[]> {
  const inDark = await axe(page)
  await wear(page, 'light')
  const inLight = await axe(page)
  await wear(page, 'dark')
  return [...inDark, ...inLight.map((words) => `light: ${words}`)]
}

const wear = (page: Page, theme: 'dark' | 'light') =>
  page.evaluate((name) => {
    document.documentElement.dataset.theme = name
  }, theme)

/** The same of the page as a tablet has it, dark, and a phone, light, as colours are the same at every size; and whether it runs out at a side. */
export async function axeOnSmall(page: Page): Promise<string[]> {
  const { width, height } = page.viewportSize()!
  const found: string[] = []
  for (const [theme, ...size] of [
    ['dark', 1024, 768],
    ['light', 390, 844],
  ] as const) {
    await page.setViewportSize({ width: size[0], height: size[1] })
    await wear(page, theme)
    const where = `${size[0]} wide, ${theme}`
    found.push(...(await axe(page)).map((words) => `${where}: ${words}`))
    const wide = await page.evaluate(() => document.documentElement.scrollWidth)
    if (wide !== size[0]) found.push(`${where}: the page is ${wide} wide`)
  }
  await page.setViewportSize({ width, height })
  await wear(page, 'dark')
  return found
}

export const field = (page: Page, name: string) => page.getByRole('textbox', { name: `${name}, typed` })
export const shownIn = (page: Page, name: string) => field(page, name).inputValue()
export const undoButton = (page: Page) => page.getByRole('button', { name: /^undo/ })

/** Types into a field and accepts. */
export async function type(page: Page, name: string, text: string): Promise<void> {
  await field(page, name).fill(text)
  await page.keyboard.press('Enter')
}

/** What 'save' would put on the disk, caught on its way: a thousand downloads are more than a browser begins in time. */
export const givenBySave = (page: Page) =>
  page.evaluate(async () => {
    const [make, click] = [URL.createObjectURL, HTMLAnchorElement.prototype.click]
    let given: Blob | null = null
    URL.createObjectURL = (made) => {
      given = made as Blob
      return make.call(URL, made)
    }
    HTMLAnchorElement.prototype.click = () => {}
    const words = [...document.querySelectorAll<HTMLElement>('.bar .word')]
    words.find(({ textContent }) => textContent === 'save')!.click()
    Object.assign(URL, { createObjectURL: make })
    HTMLAnchorElement.prototype.click = click
    return (given as Blob | null)!.text()
  })

/** What a handle of a drawing is grabbed by. */
export const grip = (page: Page, drawing: 'Plan' | 'Elevation', target: string) =>
  page.getByRole('region', { name: drawing }).locator(`[data-target="${target}"] .grip`)

/** Drags it in five moves; gives back the page's time before the last of them, ms. */
export async function dragBy(page: Page, held: ReturnType<typeof grip>, dx: number, dy: number): Promise<number> {
  const box = await held.boundingBox()
  if (!box) throw new Error('the handle is not on the page')
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 1; i < 5; i++) await page.mouse.move(x + (dx * i) / 5, y + (dy * i) / 5)
  const before = await page.evaluate(() => performance.now())
  await page.mouse.move(x + dx, y + dy)
  await page.mouse.up()
  return before
}

export async function middleOf(held: Locator): Promise<readonly [number, number]> {
  const { x, y, width, height } = (await held.boundingBox())!
  return [x + width / 2, y + height / 2]
}

/** The browser's own touches, which become pointer events, or a scroll where the page lets them. */
export const touch = (
  hand: CDPSession,
  type: 'touchStart' | 'touchMove' | 'touchEnd',
  at?: readonly [number, number],
) => hand.send('Input.dispatchTouchEvent', { type, touchPoints: at ? [{ x: at[0], y: at[1] }] : [] })

/** A finger on the middle of it, taken along in four moves. */
export async function fingerBy(hand: CDPSession, held: Locator, dx: number, dy: number): Promise<void> {
  const [x, y] = await middleOf(held)
  await touch(hand, 'touchStart', [x, y])
  for (let i = 1; i <= 4; i++) await touch(hand, 'touchMove', [x + (dx * i) / 4, y + (dy * i) / 4])
  await touch(hand, 'touchEnd')
}
