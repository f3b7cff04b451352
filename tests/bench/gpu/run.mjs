/**
 * Measures the picture and the page on the machine it runs on. Outside CI.
 *   node tests/bench/gpu/run.mjs --chrome PATH --out FILE.json [--dist dist] [--bench out/bench] [--flags gpu|software]
 *     [--width 1280] [--height 960] [--moves 40] [--reference 4096] [--settle 20] [--only size,page,picture,sources,lesson] [--lesson 2] [--quick]
 * Before it: npx vite build && npx vite build -c tests/bench/gpu/vite.config.mjs
 */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { measureApp } from './app.mjs'
import { openPage, readOptions, runBench } from './host.mjs'
import { measureLesson } from './lesson.mjs'
import { measurePicture, measureSources } from './picture.mjs'

const OPTIONS = {
  width: { type: 'string', default: '1280' },
  height: { type: 'string', default: '960' },
  moves: { type: 'string', default: '40' },
  reference: { type: 'string', default: '4096' },
  settle: { type: 'string', default: '20' },
  only: { type: 'string', default: 'size,page,picture,sources' },
  lesson: { type: 'string', default: '2' },
  quick: { type: 'boolean', default: false },
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

const given = readOptions(OPTIONS, { width: 16, height: 16, moves: 2, reference: 32, settle: 1, lesson: 1 })
const parts = given.only.split(',')
await runBench(given, async ({ browser, machine, url, figureUrl, save }) => {
  const start = Date.now()
  const result = { ...machine, flags: given.flags }
  const keep = (part, measures) => {
    result[part] = { renderer: machine.renderer, ...measures }
    save(result)
    console.log(`[${((Date.now() - start) / 1000).toFixed(0)} s] ${part} measured`)
  }
  if (parts.includes('size')) keep('size', sizesOf(given.dist))
  if (parts.includes('page')) {
    const how = { loads: given.quick ? 1 : 3, moves: given.quick ? 40 : 600, settleSeconds: given.settle }
    keep('page', await measureApp(browser, `${url}/app/`, how))
  }
  if (parts.includes('lesson'))
    keep('lesson', await measureLesson(browser, `${url}/app/`, { lesson: given.lesson, patienceSeconds: given.settle }))
  for (const [part, measure] of Object.entries({ picture: measurePicture, sources: measureSources })) {
    if (!parts.includes(part)) continue
    const { page, close } = await openPage(browser, `${url}/bench/gpu/picture.html`, { width: 800, height: 600 })
    keep(part, await measure(page, { ...given, figureUrl }))
    await close()
  }
})
