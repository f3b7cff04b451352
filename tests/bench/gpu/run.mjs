/**
 * Measures the picture and the page on the machine it runs on. Outside CI.
 *   node tests/bench/gpu/run.mjs --chrome PATH --out FILE.json [--dist dist] [--bench out/bench] [--flags gpu|software]
 *     [--width 1280] [--height 960] [--moves 40] [--reference 4096] [--settle 20] [--only size,page,picture] [--quick]
 * Before it: npx vite build && npx vite build -c tests/bench/gpu/vite.config.mjs
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { gzipSync } from 'node:zlib'
import { measureApp } from './app.mjs'
import { launch, openPage, rendererName, serve, whole } from './host.mjs'
import { measurePicture } from './picture.mjs'

function options() {
  const { values } = parseArgs({
    options: {
      chrome: { type: 'string' },
      out: { type: 'string' },
      dist: { type: 'string', default: 'dist' },
      bench: { type: 'string', default: 'out/bench' },
      flags: { type: 'string', default: 'gpu' },
      width: { type: 'string', default: '1280' },
      height: { type: 'string', default: '960' },
      moves: { type: 'string', default: '40' },
      reference: { type: 'string', default: '4096' },
      settle: { type: 'string', default: '20' },
      only: { type: 'string', default: 'size,page,picture' },
      quick: { type: 'boolean', default: false },
    },
  })
  if (!values.chrome || !values.out) throw new Error('Expected --chrome PATH and --out FILE.json')
  const { chrome, out, dist, bench, flags, quick, only } = values
  const number = (name, least) => whole(name, values[name], least)
  const sizes = { width: number('width', 16), height: number('height', 16) }
  const work = { moves: number('moves', 2), reference: number('reference', 32), settle: number('settle', 1) }
  return { chrome, out, dist, bench, flags, quick, only: only.split(','), ...sizes, ...work }
}

/** Scripts, styles, fonts and the sitter as they would travel: bytes, and bytes after gzip at its usual level. */
function sizesOf(dist) {
  const folder = join(dist, 'assets')
  const files = readdirSync(folder).map((name) => {
    const bytes = readFileSync(join(folder, name))
    return { name, bytes: bytes.length, gzip: gzipSync(bytes).length }
  })
  const scripts = files.filter(({ name }) => name.endsWith('.js'))
  return {
    scriptsGzip: scripts.reduce((sum, { gzip }) => sum + gzip, 0),
    files: files.sort((a, b) => b.gzip - a.gzip),
  }
}

async function main() {
  const given = options()
  const start = Date.now()
  const { server, url } = await serve({ app: given.dist, bench: given.bench })
  const browser = await launch(given.chrome, given.flags)
  try {
    const renderer = await rendererName(browser)
    const result = { renderer, browser: browser.version(), flags: given.flags }
    console.log(`Draws with: ${renderer}`)
    const save = (part, measures) => {
      result[part] = { renderer, ...measures }
      writeFileSync(given.out, `${JSON.stringify(result, null, 1)}\n`)
      console.log(`[${((Date.now() - start) / 1000).toFixed(0)} s] ${part} measured`)
    }
    if (given.only.includes('size')) save('size', sizesOf(given.dist))
    if (given.only.includes('page')) {
      const how = { loads: given.quick ? 1 : 3, moves: given.quick ? 10 : 120, settleSeconds: given.settle }
      save('page', await measureApp(browser, `${url}/app/`, how))
    }
    if (given.only.includes('picture')) {
      const { page, close } = await openPage(browser, `${url}/bench/gpu/picture.html`, { width: 800, height: 600 })
      const asset = readdirSync(join(given.dist, 'assets')).find((name) => name.endsWith('.glb'))
      save('picture', await measurePicture(page, { ...given, figureUrl: `${url}/app/assets/${asset}` }))
      await close()
    }
  } finally {
    await browser.close()
    server.close()
  }
}

main().catch((error) => {
  console.error(error)
  process.exitCode = 1
})
