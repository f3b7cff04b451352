/**
 * node tests/bench/readings/run.mjs [SCENE …]
 * How long it takes to decode the sitter and to take readings, bundled as the page has them and in a thread of their own: those
 * without a ray, all of them while a hand moves, and a grid of 1,000 places. Times are of the processor, the best of many runs, of the live set the median too; rays are counted. Outside CI.
 */

import { mkdtempSync, rmSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { Worker } from 'node:worker_threads'
import { build } from 'vite'

const scenes =
  process.argv.length > 2 ? process.argv.slice(2) : ['notice-board', 'hard-key-from-the-side', 'coloured-backdrop']
const folder = mkdtempSync(join(tmpdir(), 'readings-'))
await build({
  configFile: false,
  logLevel: 'error',
  ssr: { noExternal: true },
  build: {
    ssr: fileURLToPath(new URL('readings.ts', import.meta.url)),
    outDir: folder,
    minify: false,
    rollupOptions: { output: { entryFileNames: 'readings.mjs' } },
  },
})
console.log(`load of the machine ${loadavg()[0].toFixed(1)}`)
await new Promise((done, failed) => {
  const worker = new Worker(pathToFileURL(join(folder, 'readings.mjs')), { workerData: { scenes } })
  worker.on('error', failed)
  worker.on('exit', done)
})
rmSync(folder, { recursive: true, force: true })
