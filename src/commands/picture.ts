/**
 * npm run --silent picture -- FILE --out P.png|P.exr [--width W] [--samples N] [--seed S] [--shoulder] [--blur]
 *   [--grey] [--view camera|eye|cheek|edge|profile] [--kit FILE]
 * The picture of a sitting from a headless browser. PNG: as the page shows it, the sitting inside, grey for paper if asked; EXR: exposed linear
 * sRGB and a layer a source.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { extname, join, normalize, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { chromium } from 'playwright-core'
import { greyed } from '../camera'
import { writeExr, writePng } from '../exchange'
import { assembleRig, cropScale, isCrop, LOOKS, type Look, type RigAssets } from '../rig'
import { type Sitting, writeSitting } from '../sitting'
// @ts-expect-error plain JavaScript: it also runs before npm has installed
import { needChromium, SOFTWARE_FLAGS } from './chromium.mjs'
import type { PictureAnswer, PictureOrder } from './picture-page'
import { exposureOf, figureFiles, rigAssets, sittingFrom, withKit } from './sitting-file'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const USAGE =
  'npm run --silent picture -- FILE --out P.png|P.exr [--width W] [--samples N] [--seed S] [--shoulder] [--blur] [--grey] [--view camera|eye|cheek|edge|profile] [--kit FILE]'
const SIDE_PX = [16, 4096] as const
const SAMPLES = [16, 65536] as const

function options() {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      out: { type: 'string' },
      width: { type: 'string', default: '960' },
      samples: { type: 'string', default: '256' },
      seed: { type: 'string', default: '1' },
      shoulder: { type: 'boolean', default: false },
      blur: { type: 'boolean', default: false },
      grey: { type: 'boolean', default: false },
      view: { type: 'string', default: 'camera' },
      kit: { type: 'string' },
    },
  })
  const [file] = positionals
  if (!file || !values.out || !/\.(png|exr)$/i.test(values.out)) throw new Error(`Usage: ${USAGE}`)
  if (values.grey && !/\.png$/i.test(values.out)) throw new Error(`--grey: expected --out P.png, got ${values.out}`)
  return {
    file,
    out: values.out,
    width: whole('--width', values.width, SIDE_PX, 'pixels'),
    samples: whole('--samples', values.samples, SAMPLES, 'samples a source'),
    seed: whole('--seed', values.seed, [0, 2 ** 32 - 1], ''),
    mode: values.shoulder ? ('shoulder' as const) : ('plain' as const),
    look: lookNamed(values.view),
    blurred: values.blur,
    grey: values.grey,
    kit: values.kit ?? null,
  }
}

function lookNamed(text: string): Look {
  const look = LOOKS.find((name) => name === text)
  if (look) return look
  throw new Error(`--view: expected one of ${LOOKS.join(', ')}, got ${text}`)
}

function whole(name: string, text: string, [low, high]: readonly [number, number], unit: string): number {
  const value = Number(text)
  if (Number.isInteger(value) && value >= low && value <= high) return value
  throw new Error(`${name}: expected a whole number of ${low} to ${high}${unit && ` ${unit}`}, got ${text}`)
}

function buildPage(folder: string): void {
  const vite = join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js')
  const config = join(ROOT, 'src', 'commands', 'picture-page.config.mjs')
  execFileSync(process.execPath, [vite, 'build', '--config', config, '--outDir', folder, '--emptyOutDir'], {
    cwd: ROOT,
    stdio: ['ignore', 'ignore', 'inherit'],
  })
}

const TYPES: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css' }

/** Modules do not load from files, so the built page is served to this machine alone. */
function serve(folder: string): Promise<Server> {
  const server = createServer((request, response) => {
    const path = normalize(join(folder, decodeURIComponent(new URL(request.url ?? '/', 'http://page').pathname)))
    try {
      if (!path.startsWith(folder + sep)) throw new Error('outside the folder')
      const body = readFileSync(path)
      response.setHeader('content-type', TYPES[extname(path)] ?? 'application/octet-stream')
      response.end(body)
    } catch {
      response.statusCode = 404
      response.end()
    }
  })
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(server)))
}

async function drawInBrowser(folder: string, order: PictureOrder): Promise<PictureAnswer> {
  const server = await serve(folder)
  const browser = await chromium.launch({ executablePath: needChromium(), args: SOFTWARE_FLAGS })
  try {
    const page = await browser.newPage()
    page.setDefaultTimeout(0)
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/picture-page.html`)
    await page.waitForFunction('window.ready === true')
    return await page.evaluate(
      (given) => (window as unknown as { draw: (order: PictureOrder) => Promise<PictureAnswer> }).draw(given),
      order,
    )
  } finally {
    await browser.close()
    server.close()
  }
}

const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64')

const floats = (text: string): Float32Array => {
  const bytes = Buffer.from(text, 'base64')
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength))
}

const withoutAlpha = (rgba: Float32Array): Float32Array =>
  Float32Array.from({ length: (rgba.length / 4) * 3 }, (_, i) => rgba[Math.floor(i / 3) * 4 + (i % 3)])

function fileOf(answer: PictureAnswer, out: string, sittingText: string, grey: boolean): Uint8Array {
  const { width, height } = answer
  const texts = { [SITTING_KEY]: sittingText }
  if (/\.png$/i.test(out)) {
    const rgb = Buffer.from(answer.display, 'base64')
    return writePng({ width, height, rgb: grey ? greyed(rgb) : rgb }, texts)
  }
  const layers = [
    { name: '', rgb: withoutAlpha(floats(answer.linear)) },
    ...answer.layers.map(({ name, linear }) => ({ name, rgb: withoutAlpha(floats(linear)) })),
  ]
  return writeExr({ width, height, layers, texts })
}
const SITTING_KEY = 'halfshade.sitting'

/** Of a crop, at the place in its middle. */
function scaleWords(sitting: Sitting, assets: RigAssets, look: Look, widthPx: number): string {
  if (!isCrop(look)) return ''
  const { widthMm } = cropScale(assembleRig(sitting, assets), look)
  return `, ${look} crop, ${(widthMm / widthPx).toFixed(3)} mm a pixel`
}

async function main(): Promise<void> {
  const { file, out, kit, grey, ...how } = options()
  const opened = await sittingFrom(file)
  const { sitting, lines } = await withKit(opened.sitting, kit)
  for (const line of lines) console.error(line)
  const sittingText = kit === null ? opened.text : writeSitting(sitting)
  const files = await figureFiles(sitting)
  const assets = rigAssets(files)
  const exposure = exposureOf(sitting, assets)
  const figure = base64(files.figure)
  const worn = Object.fromEntries(Object.entries(files.worn).map(([name, file]) => [name, base64(file)]))
  const folder = mkdtempSync(join(tmpdir(), 'picture-'))
  try {
    buildPage(folder)
    const answer = await drawInBrowser(folder, { sittingText, figure, worn, exposure, ...how })
    writeFileSync(out, fileOf(answer, out, sittingText, grey))
    const scale = scaleWords(sitting, assets, how.look, answer.width)
    console.log(`${out}: ${answer.width} × ${answer.height} pixels, ${how.samples} samples a source${scale}`)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 1
})
