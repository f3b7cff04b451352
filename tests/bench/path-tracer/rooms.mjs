/**
 * The picture with its bounce against three-gpu-pathtracer, in rooms, on the machine it runs on. Outside CI: a graphics card wants
 * some 20 s a picture, software many minutes.
 *   node tests/bench/path-tracer/rooms.mjs --chrome PATH --out FILE.json [--dist dist] [--bench out/bench] [--flags gpu|software]
 *     [--sets box,pale,dark-white,dark-silver,red-backdrop] [--poses 0,1,2] [--keys 0,1,2]
 *     [--width 480] [--height 360] [--samples 1024] [--seconds 12] [--bounces 24]
 * Before it: npx vite build && npx vite build -c tests/bench/gpu/vite.config.mjs
 * With the same --out again, pictures that stand in it are kept, so that a run may be cut into pieces.
 */
import { existsSync, readFileSync } from 'node:fs'
import { openPage, readOptions, runBench, whole } from '../gpu/host.mjs'

const OPTIONS = {
  sets: { type: 'string', default: 'box,pale,dark-white,dark-silver,red-backdrop' },
  poses: { type: 'string', default: '0,1,2' },
  keys: { type: 'string', default: '0,1,2' },
  width: { type: 'string', default: '480' },
  height: { type: 'string', default: '360' },
  samples: { type: 'string', default: '1024' },
  seconds: { type: 'string', default: '12' },
  bounces: { type: 'string', default: '24' },
}
const SETS = OPTIONS.sets.default.split(',')

const given = readOptions(OPTIONS, { width: 16, height: 12, samples: 16, seconds: 1, bounces: 2 })
const numbers = (name) => given[name].split(',').map((text) => upTo2(name, whole(name, text, 0)))
const sets = given.sets.split(',').map(known)
const orders = sets.flatMap((set) =>
  numbers('poses').flatMap((pose) => numbers('keys').map((key) => ({ set, pose, key }))),
)

function known(set) {
  if (SETS.includes(set)) return set
  throw new Error(`--sets: expected some of ${SETS.join(', ')}, got ${set}`)
}

function upTo2(name, number) {
  if (number <= 2) return number
  throw new Error(`--${name}: expected 0, 1 or 2, got ${number}`)
}

const REGIONS = ['lit', 'shadow', 'set', 'crevice']
const HEAD = ['bias %', 'RMSE %', 'less noise', 'trimmed', 'bounce ratio', 'R/G', 'traced']
const cells = ({ bias, rmse, rmseLessNoise, rmseTrimmed, bounceRatio, bleed }) =>
  [bias, rmse, rmseLessNoise, rmseTrimmed, bounceRatio, bleed.picture, bleed.traced].map((x) =>
    Number.isFinite(x) ? x.toFixed(2) : '–',
  )
const line = (name, values) => `${name.padEnd(26)}${values.map((value) => value.padStart(13)).join('')}`

function tell({ set, pose, key, tracedSamples, regions }) {
  console.log(line(`${set} ${pose} ${key} (N ${tracedSamples})`, HEAD))
  for (const region of REGIONS) console.log(line(`  ${region}, ${regions[region].pixels} px`, cells(regions[region])))
}

/** Of a set over its poses and keys: means by region; of the bounce ratio the least and the most. */
function tellSet(set, pictures) {
  console.log(
    line(`\n${set}, ${pictures.length} pictures`, [
      'mean bias',
      'worst bias',
      'less noise',
      'trimmed',
      'ratio, least',
      'most',
    ]),
  )
  for (const region of REGIONS) {
    const all = pictures.map(({ regions }) => regions[region]).filter(({ pixels }) => pixels > 0)
    if (all.length === 0) continue
    const mean = (value) => all.reduce((sum, one) => sum + value(one), 0) / all.length
    const most = (value) => Math.max(...all.map(value))
    const values = [
      mean(({ bias }) => bias),
      most(({ bias }) => Math.abs(bias)),
      mean(({ rmseLessNoise }) => rmseLessNoise),
      mean(({ rmseTrimmed }) => rmseTrimmed),
      -most(({ bounceRatio }) => -bounceRatio),
      most(({ bounceRatio }) => bounceRatio),
    ]
    console.log(
      line(
        `  ${region}`,
        values.map((x) => x.toFixed(2)),
      ),
    )
  }
}

const same = (a) => (b) => a.set === b.set && a.pose === b.pose && a.key === b.key

await runBench(given, async ({ browser, machine, url, figureUrl, save }) => {
  const { width, height, samples, seconds, bounces } = given
  const before = existsSync(given.out) ? JSON.parse(readFileSync(given.out, 'utf8')) : null
  const fits = before?.width === width && before?.height === height && before?.bounces === bounces
  const pictures = fits ? before.pictures : []
  const { page } = await openPage(browser, `${url}/bench/path-tracer/rooms.html`, { width: 800, height: 600 })
  await page.waitForFunction('window.ready === true')
  await page.evaluate((order) => window.rooms.open(...order), [figureUrl, width, height, bounces])
  for (const order of orders) {
    if (pictures.some(same(order))) continue
    const found = await page.evaluate((one) => window.rooms.compare(one), { ...order, samples, seconds })
    tell(found)
    pictures.push(found)
    save({ ...machine, width, height, bounces, pictures })
  }
  for (const set of sets) {
    const own = pictures.filter((one) => one.set === set)
    if (own.length > 0) tellSet(set, own)
  }
})
