/**
 * A browser with WebGL2 in software and a page that serves this repository's sources. Tests call what a page module
 * puts on its window: openPage('render.page.ts') loads tests/browser/render.page.ts.
 */
import type { AddressInfo } from 'node:net'
import type { Page } from 'playwright-core'
import { createServer, type ViteDevServer } from 'vite'
import { browserWith } from './browsers'

export interface OpenPage {
  readonly page: Page
  /** Throws where the page complained of anything on its console. */
  silent(): void
  /** Closes it, and throws as `silent` does. */
  close(): Promise<void>
}

const blank = (module: string) =>
  `<!doctype html><html lang="en"><title>Test page</title><script type="module" src="/tests/browser/${module}"></script></html>`

/** One a worker, for all of its files: what it has transformed serves them all. */
let server: Promise<ViteDevServer> | null = null

async function serve(): Promise<ViteDevServer> {
  const started = await createServer({
    configFile: false,
    root: process.cwd(),
    logLevel: 'error',
    // One a worker: two servers at once would tidy up after each other.
    cacheDir: `node_modules/.vite-browser-tests-${process.env.VITEST_POOL_ID ?? 0}`,
    appType: 'custom',
    // All that a page imports: one found later would load the pages anew.
    optimizeDeps: { include: ['three', 'three-mesh-bvh', 'zod', 'fflate', 'meshoptimizer'], noDiscovery: true },
    server: { port: 0, host: '127.0.0.1', hmr: false, watch: null },
  })
  started.middlewares.use((request, response, next) => {
    if (request.url === '/favicon.ico') {
      response.statusCode = 204
      return response.end()
    }
    const module = request.url?.match(/^\/\?of=(.+)$/)?.[1]
    if (!module) return next()
    response.setHeader('content-type', 'text/html')
    response.end(blank(module))
  })
  return started.listen()
}

/** Some browsers' drivers remark that a test's reading back of pixels waits, which is what it is for. */
const READS_BACK = 'GPU stall due to ReadPixels'

/** Opens the module's page and waits until it has set window.ready. Its errors and warnings are told on the console, but for READS_BACK. */
export async function openPage(module: string): Promise<OpenPage> {
  server ??= serve()
  const { httpServer } = await server
  const page = await (await browserWith()).newPage()
  const complaints: string[] = []
  const complain = (words: string) => {
    complaints.push(words)
    console.error(`page: ${words}`)
  }
  page.on('console', (message) => {
    if (/^(error|warning)$/.test(message.type()) && !message.text().includes(READS_BACK)) complain(message.text())
  })
  page.on('pageerror', (error) => complain(String(error.stack ?? error)))
  await page.goto(`http://127.0.0.1:${(httpServer!.address() as AddressInfo).port}/?of=${module}`)
  await page.waitForFunction('window.ready === true')
  const silent = () => {
    const said = complaints.splice(0)
    if (said.length > 0) throw new Error(`${module} complained: ${said.join('\n')}`)
  }
  const close = async () => {
    await page.close()
    silent()
  }
  return { page, silent, close }
}

/** Floats travel as base64: as JSON they would be ten times as large. */
export const floatsFromBase64 = (text: string): Float32Array => {
  const bytes = Buffer.from(text, 'base64')
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength))
}
