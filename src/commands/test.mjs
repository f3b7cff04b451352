/** npm test: installs what it needs, then types, lint, truth, unit tests and the tests in a real browser. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { needChromium } from './chromium.mjs'
import { binary, ensureInstalled, run } from './install.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'halfshade-test-'))
const failures = join(folder, 'failures.txt')
const vitest = (project) => [
  'run',
  '--project',
  project,
  '--reporter=default',
  '--reporter=./src/commands/failures.mjs',
]
const steps = [
  ['types', 'tsc', ['--noEmit']],
  ['lint', 'biome', ['check', '.']],
  ['truth', 'tsx', ['src/commands/truth.ts']],
  ['unit tests', 'vitest', vitest('unit')],
  ['browser tests', 'vitest', vitest('browser')],
]

try {
  ensureInstalled(root)
  process.env.CHROMIUM = needChromium()
  process.env.FAILURES_FILE = failures
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
// Said again at the end, which is what is left of a long output.
const said = existsSync(failures) ? readFileSync(failures, 'utf8') : ''
if (said) console.error(`\n${said}`)
if (failed.length > 0) console.error(`Failed: ${failed.join(', ')}`)
rmSync(folder, { recursive: true, force: true })
console.log(`\n${steps.length - failed.length} passed, ${failed.length} failed`)
process.exit(failed.length > 0 ? 1 : 0)
