/**
 * A browser with WebGL2 in software and a page that serves this repository's sources. Tests call what a page module
 * puts on its window: openPage('render.page.ts') loads tests/browser/render.page.ts.
 */
import type { AddressInfo } from 'node:net'
import { type Browser, chromium, type Page } from 'playwright-core'
import { createServer, type ViteDevServer } from 'vite'
// @ts-expect-error plain JavaScript, shared with scripts that run before npm has installed
import { needChromium, SOFTWARE_FLAGS } from '../../src/commands/chromium.mjs'

export interface OpenPage {
  readonly page: Page
  readonly close: () => Promise<void>
}

const blank = (module: string) =>
  `<!doctype html><html lang="en"><title>Test page</title><script type="module" src="/tests/browser/${module}"></script></html>`

async function serve(module: string): Promise<ViteDevServer> {
  const server = await createServer({
    configFile: false,
    root: process.cwd(),
    logLevel: 'error',
    // One a worker: two servers at once would tidy up after each other.
    cacheDir: `node_modules/.vite-browser-tests-${process.env.VITEST_POOL_ID ?? 0}`,
    appType: 'custom',
    optimizeDeps: { include: ['three'] },
    server: { port: 0, host: '127.0.0.1', hmr: false, watch: null },
  })
  server.middlewares.use((request, response, next) => {
    if (request.url === '/favicon.ico') {
      response.statusCode = 204
      return response.end()
    }
    if (request.url !== '/') return next()
    response.setHeader('content-type', 'text/html')
    response.end(blank(module))
  })
  return server.listen()
}

/** Opens the module's page and waits until it has set window.ready. Console errors of the page fail the test. */
export async function openPage(module: string, flags: readonly string[] = SOFTWARE_FLAGS): Promise<OpenPage> {
  const server = await serve(module)
  const browser: Browser = await chromium.launch({ executablePath: needChromium(), args: [...flags] })
  const page = await browser.newPage()
  page.on('console', (message) => {
    if (message.type() === 'error') console.error(`page: ${message.text()}`)
  })
  page.on('pageerror', (error) => console.error(`page: ${error.stack}`))
  await page.goto(`http://127.0.0.1:${(server.httpServer!.address() as AddressInfo).port}/`)
  await page.waitForFunction('window.ready === true')
  return {
    page,
    close: async () => {
      await browser.close()
      await server.close()
    },
  }
}

/** Floats travel as base64: as JSON they would be ten times as large. */
export const floatsFromBase64 = (text: string): Float32Array => {
  const bytes = Buffer.from(text, 'base64')
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength))
}
