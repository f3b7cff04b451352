/** npm test: installs what it needs, then types, lint, truth, unit tests and the tests in a real browser. */
import { fileURLToPath } from 'node:url'
import { needChromium } from './chromium.mjs'
import { binary, ensureInstalled, run } from './install.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url))
const steps = [
  ['types', 'tsc', ['--noEmit']],
  ['lint', 'biome', ['check', '.']],
  ['truth', 'tsx', ['src/commands/truth.ts']],
  ['unit tests', 'vitest', ['run', '--project', 'unit']],
  ['browser tests', 'vitest', ['run', '--project', 'browser']],
]

try {
  ensureInstalled(root)
  process.env.CHROMIUM = needChromium()
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exit(1)
}
const failed = []
for (const [name, program, args] of steps) {
  const began = Date.now()
  console.log(`\n── ${name}`)
  try {
    run(root, binary(root, program), args)
  } catch (error) {
    failed.push(name)
    console.error(error.message)
  }
  console.log(`   ${((Date.now() - began) / 1000).toFixed(0)} s`)
}
if (failed.length > 0) console.error(`\nFailed: ${failed.join(', ')}`)
console.log(`\n${steps.length - failed.length} passed, ${failed.length} failed`)
process.exit(failed.length > 0 ? 1 : 0)
