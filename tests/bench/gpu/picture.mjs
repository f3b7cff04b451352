/** Calls the measures of picture.ts one by one and says how they go. */
const FULL = {
  scenes: ['notice-board', 'three-umbrellas'],
  lamps: ['disc', 'rect', 'hard'],
  antialias: [true, false],
  counts: [16, 32, 64, 128, 256, 512],
  repeats: 3,
  batches: 4,
  warmUp: 5,
}
/** Where everything is drawn by the processor: shows that the bench runs, and little more. */
const QUICK = {
  scenes: ['notice-board'],
  lamps: ['disc'],
  antialias: [false],
  counts: [16, 32],
  repeats: 1,
  batches: 1,
  warmUp: 1,
}

const MARKS_MS = [60, 120, 180, 250, 350, 500, 700, 1000, 1400, 2000]

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

async function moves(page, given, { scenes, warmUp }) {
  const measured = {}
  for (const scene of scenes)
    for (const what of ['lamp', 'head'])
      for (const paced of [false, true]) {
        const name = `${scene}, ${what}, ${paced ? 'in turns of 12 ms' : 'sixteen at one go'}`
        measured[name] = await page.evaluate(
          ([call, ...order]) => window.bench[call](...order),
          [what, scene, { moves: given.moves, warmUp, paced }],
        )
        console.log(`  ${name}: ${ms(measured[name].all)}`)
      }
  return measured
}

async function convergence(page, given, extent) {
  const measured = {}
  const order = { counts: extent.counts, repeats: extent.repeats, reference: given.reference }
  for (const antialias of extent.antialias) {
    const suffix = antialias ? '' : ', no antialiasing'
    const how = { ...order, antialias }
    const name = `notice-board${suffix}`
    measured[name] = await page.evaluate((given) => window.bench.scene('notice-board', given), how)
    tellConvergence(name, measured[name])
    for (const lamp of extent.lamps) {
      const title = `matt sitter, ${lamp}${suffix}`
      measured[title] = await page.evaluate(([which, given]) => window.bench.matt(which, given), [lamp, how])
      tellConvergence(title, measured[title])
    }
  }
  return measured
}

async function recombination(page, given) {
  const spread = await page.evaluate((repeats) => window.bench.recombination('notice-board', repeats), given.moves)
  console.log(`  recombination alone: ${ms(spread)}`)
  return spread
}

async function batches(page, extent) {
  const measured = {}
  for (const scene of extent.scenes) {
    measured[scene] = await page.evaluate((order) => window.bench.batch(...order), [scene, extent.batches])
    const { memory, passes, samples } = measured[scene]
    console.log(`  ${scene}: ${memory[0].mib.toFixed(0)} MiB on the card`)
    for (const [pass, { ms: sum }] of Object.entries(passes ?? {}))
      console.log(`  ${scene}, ${pass}: ${(sum / (samples / 16)).toFixed(3)} ms for sixteen samples of a source`)
    if (!passes) console.log('  no timer queries here')
  }
  return measured
}

/** What the passes of one move take on the card, with more and more sources: drawn as one where that is done, and each by itself. */
async function movePasses(page, given, { warmUp }, counts) {
  const table = {}
  for (const what of ['head', 'lamp'])
    for (const count of counts)
      for (const apart of [false, true]) {
        if (what === 'lamp' && apart) continue
        const name = `${what}, ${count} sources${apart ? ', each by itself' : ''}`
        const order = { moves: Math.min(10, given.moves), warmUp, paced: false, apart }
        const args = [`${count} sources`, what, order]
        table[name] = await page.evaluate((order) => window.bench.passes(...order), args)
        const cells = Object.entries(table[name] ?? {}).map(
          ([pass, { draws, ms: sum }]) => `${pass} ${sum.toFixed(2)} (${draws})`,
        )
        console.log(`  passes of a move, ${name}: ${cells.join(', ') || 'no timer queries here'}`)
      }
  return table
}

/** What a picture costs with more sources and more samples; and six of them moved, finished, held. */
export async function measureSources(page, given) {
  const { width, height, quick } = given
  const most = quick ? 2 : 6
  const extent = { ...(quick ? QUICK : { ...FULL, counts: [16, 64, 256], repeats: 1 }), scenes: ['6 sources'] }
  await page.waitForFunction('window.ready === true')
  const missing = await page.evaluate((order) => window.bench.open(...order), [given.figureUrl, width, height])
  if (missing) throw new Error(missing)
  const cost = {}
  for (let count = 1; count <= most; count++)
    for (const samples of extent.counts) {
      const name = `${count} sources`
      const time = await page.evaluate((order) => window.bench.samples(...order), [name, samples, extent.repeats])
      cost[name] = { ...cost[name], [samples]: time }
      console.log(`  ${name}, N ${samples}: ${time.toFixed(1)} ms`)
    }
  const moved = await moves(page, given, extent)
  const passes = await movePasses(page, given, extent, quick ? [2] : [1, 3, 6])
  const first = {}
  for (const name of quick ? ['2 sources'] : ['2 sources', '3 sources', '6 sources']) {
    first[name] = await page.evaluate((order) => window.bench.first(...order), [name, given.reference])
    for (const [how, { all, figure }] of Object.entries(first[name]))
      console.log(
        `  ${name}, head turned, first picture, ${how}: RMSE ${percent(all.rmse)}, sitter ${percent(figure.rmse)}`,
      )
  }
  const held = await batches(page, extent)
  const order = { counts: extent.counts, repeats: extent.repeats, reference: given.reference, antialias: true }
  const converged = await page.evaluate((how) => window.bench.scene('6 sources', how), order)
  tellConvergence('6 sources', converged)
  const timed = await page.evaluate((how) => window.bench.timed('6 sources', how), {
    marks: quick ? [100, 200] : MARKS_MS,
    reference: given.reference,
  })
  const { all, inside } = timed.msToOnePercent
  console.log(
    `  6 sources, samples where they are worth most: 1 % after ${all?.toFixed(0)} ms, inside ${inside?.toFixed(0)}`,
  )
  return { width, height, cost, moves: moved, passes, first, batches: held, convergence: converged, timed }
}

export async function measurePicture(page, given) {
  const { width, height } = given
  const extent = given.quick ? QUICK : FULL
  await page.waitForFunction('window.ready === true')
  const missing = await page.evaluate((order) => window.bench.open(...order), [given.figureUrl, width, height])
  if (missing) throw new Error(missing)
  const triangles = await page.evaluate(() => window.bench.triangles())
  console.log(`  ${width} × ${height}, sitter of ${triangles} triangles`)
  return {
    width,
    height,
    triangles,
    moves: await moves(page, given, extent),
    recombination: await recombination(page, given),
    batches: await batches(page, extent),
    convergence: await convergence(page, given, extent),
  }
}
