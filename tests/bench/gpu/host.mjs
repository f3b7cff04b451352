/**
 * What both benches need on the machine: options, a server of built files for this machine alone, a browser with the
 * right flags, and the name of what it draws with. Needs node and node_modules/playwright-core, nothing else.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:http'
import { extname, join, normalize, resolve, sep } from 'node:path'
import { parseArgs } from 'node:util'
import { chromium } from 'playwright-core'

/** WebGL2 through ANGLE on Vulkan in a headless browser without a display. */
const GPU_FLAGS = [
  '--no-sandbox',
  '--disable-gpu-sandbox',
  '--ignore-gpu-blocklist',
  '--enable-gpu',
  '--use-gl=angle',
  '--use-angle=vulkan',
  '--enable-features=Vulkan,VulkanFromANGLE,DefaultANGLEVulkan',
  '--disable-vulkan-surface',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]
const SOFTWARE_FLAGS = [
  '--no-sandbox',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
]
const FLAGS = { gpu: GPU_FLAGS, software: SOFTWARE_FLAGS }

const TYPES = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
  '.glb': 'model/gltf-binary',
}

const COMMON = {
  chrome: { type: 'string' },
  out: { type: 'string' },
  dist: { type: 'string', default: 'dist' },
  bench: { type: 'string', default: 'out/bench' },
  flags: { type: 'string', default: 'gpu' },
}

/** The options of every bench and its own; `numbers` names those that are whole numbers, with the least of each. */
export function readOptions(own, numbers) {
  const { values } = parseArgs({ options: { ...COMMON, ...own } })
  if (!values.chrome || !values.out) throw new Error('Expected --chrome PATH and --out FILE.json')
  const read = Object.entries(numbers).map(([name, least]) => [name, whole(name, values[name], least)])
  return { ...values, ...Object.fromEntries(read) }
}

/**
 * Serves both folders, opens the browser, says what it draws with, and closes all again whatever happens. `measure` gets
 * the browser, what it is, the server's address, the sitter's, and `save`, which writes the record to --out.
 */
export async function runBench({ chrome, out, dist, bench, flags }, measure) {
  const { server, url } = await serve({ app: dist, bench })
  const browser = await launch(chrome, flags)
  try {
    const machine = { renderer: await rendererName(browser), browser: browser.version() }
    console.log(`Draws with: ${machine.renderer}`)
    const asset = readdirSync(join(dist, 'assets')).find((name) => /^sitter.*\.glb$/.test(name))
    const save = (record) => writeFileSync(out, `${JSON.stringify(record, null, 1)}\n`)
    await measure({ browser, machine, url, figureUrl: `${url}/app/assets/${asset}`, save })
  } catch (error) {
    console.error(error)
    process.exitCode = 1
  } finally {
    await browser.close()
    server.close()
  }
}

/** A whole number of at least `least`, or a sentence that says what was wrong. */
export function whole(name, text, least) {
  const value = Number(text)
  if (Number.isInteger(value) && value >= least) return value
  throw new Error(`--${name}: expected a whole number of ${least} or more, got ${text}`)
}

/** Serves folders by the first part of the path: { app: 'dist', bench: 'out/bench' } answers /app/… and /bench/… */
function serve(folders) {
  const server = createServer((request, response) => {
    const [, name, ...rest] = new URL(request.url, 'http://here').pathname.replace(/\/$/, '/index.html').split('/')
    const folder = folders[name] && resolve(folders[name])
    const path = folder && normalize(join(folder, ...rest.map(decodeURIComponent)))
    try {
      if (!path?.startsWith(folder + sep)) throw new Error('outside the folders')
      const bytes = readFileSync(path)
      response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' }).end(bytes)
    } catch {
      response.writeHead(404).end()
    }
  })
  return new Promise((ready) =>
    server.listen(0, '127.0.0.1', () => ready({ server, url: `http://127.0.0.1:${server.address().port}` })),
  )
}

function launch(chrome, flags) {
  if (!FLAGS[flags]) throw new Error(`--flags: expected ${Object.keys(FLAGS).join(' or ')}, got ${flags}`)
  return chromium.launch({ executablePath: chrome, args: FLAGS[flags] })
}

/** A page whose errors end the run, with no limit on how long it may think. */
export async function openPage(browser, url, viewport) {
  const context = await browser.newContext({ viewport })
  const page = await context.newPage()
  page.setDefaultTimeout(0)
  page.on('pageerror', (error) => console.error(`page: ${error.stack ?? error}`))
  page.on('console', (message) => {
    const text = message.text()
    if (message.type() === 'error' && !message.location().url.endsWith('favicon.ico')) console.error(`page: ${text}`)
  })
  if (url) await page.goto(url)
  return { page, close: () => context.close() }
}

/** UNMASKED_RENDERER_WEBGL: tells a graphics card from software. */
async function rendererName(browser) {
  const { page, close } = await openPage(browser, 'about:blank')
  const name = await page.evaluate(() => {
    const gl = document.createElement('canvas').getContext('webgl2')
    const extension = gl?.getExtension('WEBGL_debug_renderer_info')
    return gl ? gl.getParameter(extension ? extension.UNMASKED_RENDERER_WEBGL : gl.RENDERER) : null
  })
  await close()
  if (!name) throw new Error('This browser offers no WebGL2 with these flags.')
  return name
}
