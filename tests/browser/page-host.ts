import { readFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join } from 'node:path'
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { build } from 'vite'
import { expect } from 'vitest'
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
  /** Closes the pages of a test, and holds each to its silence: no error, no warning, no request elsewhere. */
  leave(allowed?: RegExp): Promise<void>
  /** Closes what a test that failed left open. */
  close(): Promise<void>
}

export interface OpenOptions extends BrowserContextOptions {
  readonly graphics?: boolean
}

interface OpenPage {
  readonly page: Page
  /** What the console and the page's own errors said that should not be there. */
  readonly complaints: string[]
  /** Requests to anything but the page's own server. */
  readonly strangers: string[]
  close(): Promise<void>
}

/** The built page's address: built and served once a worker, for all of its files. */
let address: Promise<string> | null = null

/** Where it lies. */
export const PAGE_FOLDER = join('node_modules', `.page-under-test-${process.env.VITEST_POOL_ID ?? 0}`)

async function buildAndServe(): Promise<string> {
  const mode = process.env.NODE_ENV
  // The test runner's own mode would bring React's development build: what is tested is what ships.
  process.env.NODE_ENV = 'production'
  await build({ logLevel: 'error', build: { outDir: PAGE_FOLDER, emptyOutDir: true } })
  process.env.NODE_ENV = mode
  const server = serve(PAGE_FOLDER)
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/`
}

export async function hostPage(): Promise<PageHost> {
  address ??= buildAndServe()
  const url = await address
  const opened: OpenPage[] = []
  return {
    // Files kept on the device are for the test that asks for them: every page would fetch all of them once more.
    visit: async ({
      graphics = false,
      viewport = { width: 1440, height: 900 },
      serviceWorkers = 'block',
      ...options
    } = {}) => {
      const browser = await (graphics ? browserWith() : browserWith(WITHOUT_GL))
      const it = await openPage(browser, url, { viewport, serviceWorkers, ...options })
      opened.push(it)
      await it.page.getByRole('slider', { name: 'A tape' }).first().waitFor()
      return it.page
    },
    leave: async (allowed = /WebGL|GPU stall/) => {
      for (const it of opened.splice(0)) {
        await it.close()
        expect(it.complaints.filter((words) => !allowed.test(words))).toEqual([])
        expect(it.strangers).toEqual([])
      }
    },
    close: async () => {
      for (const it of opened.splice(0)) await it.close()
    },
  }
}

function serve(folder: string): Server {
  return createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://here').pathname.replace(/\/$/, '/index.html')
    try {
      const bytes = readFileSync(join(folder, path))
      response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' }).end(bytes)
    } catch {
      response.writeHead(404).end()
    }
  })
}

async function openPage(browser: Browser, url: string, options: BrowserContextOptions): Promise<OpenPage> {
  const context = await browser.newContext(options)
  const page = await context.newPage()
  const complaints: string[] = []
  const strangers: string[] = []
  page.on('console', (message) => {
    const isBlocked = /Service Worker registration blocked by Playwright/.test(message.text())
    if ((message.type() === 'error' || message.type() === 'warning') && !isBlocked) complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(String(error.stack ?? error)))
  context.on('request', (request) => {
    const address = request.url()
    if (!address.startsWith(url) && !/^(data|blob):/.test(address)) strangers.push(address)
  })
  await page.goto(url)
  return { page, complaints, strangers, close: () => context.close() }
}

export const field = (page: Page, name: string) => page.getByRole('textbox', { name: `${name}, typed` })
export const shownIn = (page: Page, name: string) => field(page, name).inputValue()
export const undoButton = (page: Page) => page.getByRole('button', { name: /^undo/ })

/** Types into a field and accepts. */
export async function type(page: Page, name: string, text: string): Promise<void> {
  await field(page, name).fill(text)
  await page.keyboard.press('Enter')
}

/** What a handle of a drawing is grabbed by. */
export const grip = (page: Page, drawing: 'Plan' | 'Elevation', target: string) =>
  page.getByRole('region', { name: drawing }).locator(`[data-target="${target}"] .grip`)

export async function dragBy(page: Page, held: ReturnType<typeof grip>, dx: number, dy: number): Promise<void> {
  const box = await held.boundingBox()
  if (!box) throw new Error('the handle is not on the page')
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 1; i <= 5; i++) await page.mouse.move(x + (dx * i) / 5, y + (dy * i) / 5)
  await page.mouse.up()
}
