/** Calls the measures of picture.ts one by one and says how they go. */
const SCENES = ['notice-board', 'three-umbrellas']
const LAMPS = ['disc', 'rect', 'hard']
const COUNTS = [16, 32, 64, 128, 256, 512]

const ms = (spread) => `${spread.median.toFixed(1)} ms median, ${spread.p95.toFixed(1)} p95`
const percent = (value) => `${value.toPrecision(3)} %`

function tellConvergence(name, { rows, msToOnePercent }) {
  for (const { samples, ms: time, misses } of rows.filter(({ samples }) => [16, 64, 256, 512].includes(samples)))
    console.log(
      `  ${name} N ${samples}: ${time.toFixed(1)} ms, RMSE ${percent(misses.all.rmse)} all, ` +
        `${percent(misses.figure.rmse)} sitter, ${percent(misses.set.rmse)} set, worst ${percent(misses.inside.worst)}`,
    )
  console.log(
    `  ${name}: 1 % after ${msToOnePercent.all?.toFixed(1)} ms, inside ${msToOnePercent.inside?.toFixed(1)} ms`,
  )
}

async function moves(page, given) {
  const measured = {}
  for (const scene of SCENES)
    for (const what of ['lamp', 'head'])
      for (const paced of [false, true]) {
        const name = `${scene}, ${what}, ${paced ? 'in turns of 12 ms' : 'sixteen at one go'}`
        measured[name] = await page.evaluate(
          ([call, ...order]) => window.bench[call](...order),
          [what, scene, given.moves, paced],
        )
        console.log(`  ${name}: ${ms(measured[name].all)}`)
      }
  return measured
}

async function convergence(page, given) {
  const measured = {}
  const order = { counts: COUNTS.filter((count) => 2 * count <= given.reference), reference: given.reference }
  for (const antialias of [true, false]) {
    const suffix = antialias ? '' : ', no antialiasing'
    const how = { ...order, antialias }
    const name = `notice-board${suffix}`
    measured[name] = await page.evaluate((given) => window.bench.scene('notice-board', given), how)
    tellConvergence(name, measured[name])
    for (const lamp of LAMPS) {
      const title = `matt sitter, ${lamp}${suffix}`
      measured[title] = await page.evaluate(([which, given]) => window.bench.matt(which, given), [lamp, how])
      tellConvergence(title, measured[title])
    }
  }
  return measured
}

async function batches(page) {
  const measured = {}
  for (const scene of SCENES) {
    measured[scene] = await page.evaluate((name) => window.bench.batch(name, 4), scene)
    const { memory, passes, samples } = measured[scene]
    console.log(`  ${scene}: ${memory[0].mib.toFixed(0)} MiB on the card`)
    for (const [pass, { ms: sum, draws }] of Object.entries(passes ?? {}))
      console.log(`  ${scene}, ${pass}: ${(sum / draws).toFixed(3)} ms a draw, ${(sum / samples).toFixed(4)} a sample`)
    if (!passes) console.log('  no timer queries here')
  }
  return measured
}

export async function measurePicture(page, given) {
  const { width, height } = given
  await page.waitForFunction('window.ready === true')
  const missing = await page.evaluate((order) => window.bench.open(...order), [given.figureUrl, width, height])
  if (missing) throw new Error(missing)
  const triangles = await page.evaluate(() => window.bench.triangles())
  console.log(`  ${width} × ${height}, sitter of ${triangles} triangles`)
  return {
    width,
    height,
    triangles,
    moves: await moves(page, given),
    recombination: await page.evaluate((n) => window.bench.recombination('notice-board', n), given.moves),
    batches: await batches(page),
    convergence: await convergence(page, given),
  }
}
