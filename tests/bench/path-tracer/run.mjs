/**
 * The picture against three-gpu-pathtracer on the machine it runs on. Outside CI: without a graphics card one sample takes
 * minutes.
 *   node tests/bench/path-tracer/run.mjs --chrome PATH --out FILE.json [--dist dist] [--bench out/bench]
 *     [--flags gpu|software] [--width 480] [--height 360] [--reference 4096] [--seconds 40] [--counts 16,32,64,128,256] [--lamps disc,rect]
 * Before it: npx vite build && npx vite build -c tests/bench/gpu/vite.config.mjs
 */
import { openPage, readOptions, runBench, whole } from '../gpu/host.mjs'

const OPTIONS = {
  width: { type: 'string', default: '480' },
  height: { type: 'string', default: '360' },
  reference: { type: 'string', default: '4096' },
  seconds: { type: 'string', default: '40' },
  counts: { type: 'string', default: '16,32,64,128,256' },
  lamps: { type: 'string', default: 'disc,rect' },
}

const percent = (value) => `${value.toPrecision(3)} %`

function tellWall(lamp, { own, traced, compiledMs }) {
  console.log(
    `  ${lamp}, bare wall against the closed form: picture ${own.toFixed(4)}, path tracer ${traced.toFixed(4)} ` +
      `(compiled in ${(compiledMs / 1000).toFixed(1)} s)`,
  )
}

function tellEqual(lamp, judge, points) {
  for (const { samples, error, ownMs, tracedMs, extrapolated, ratio } of points)
    console.log(
      `  ${lamp}, N ${samples}: ${percent(error)} of ${judge} in ${ownMs.toFixed(1)} ms; path tracer in ` +
        `${tracedMs.toFixed(0)} ms${extrapolated ? ' (extrapolated)' : ''}: ${ratio.toPrecision(3)} ×`,
    )
}

function tellSitter(lamp, { converged, ownSamples, tracedSamples, equalError, equalOwnError }) {
  const { inside, figure, set } = converged
  console.log(
    `  ${lamp}, N ${ownSamples} against N ${tracedSamples}: bias ${percent(inside.bias)} all, ` +
      `${percent(figure.bias)} sitter, ${percent(set.bias)} set; RMSE ${percent(inside.rmse)}`,
  )
  tellEqual(lamp, "the path tracer's long run", equalError)
  tellEqual(lamp, 'its own long run', equalOwnError)
}

const given = readOptions(OPTIONS, { width: 16, height: 16, reference: 16, seconds: 1 })
const counts = given.counts.split(',').map((text) => whole('counts', text, 16))
await runBench(given, async ({ browser, machine, url, figureUrl, save }) => {
  const { page } = await openPage(browser, `${url}/bench/path-tracer/judge.html`, { width: 800, height: 600 })
  await page.waitForFunction('window.ready === true')
  const { width, height, reference, seconds } = given
  await page.evaluate((order) => window.judge.open(...order), [figureUrl, width, height])
  const result = { ...machine, width, height, lamps: {} }
  for (const lamp of given.lamps.split(',')) {
    const wall = await page.evaluate((name) => window.judge.bareWall(name), lamp)
    tellWall(lamp, wall)
    const sitter = await page.evaluate((order) => window.judge.sitter(order), { lamp, counts, reference, seconds })
    tellSitter(lamp, sitter)
    result.lamps[lamp] = { renderer: machine.renderer, wall, sitter }
    save(result)
  }
})
