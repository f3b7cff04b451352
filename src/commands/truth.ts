import { readFileSync } from 'node:fs'
import { runTruth } from './truth/run'

/**
 * npm run truth: every published or derived value of shared/check-values.json against the formulas of photometry and
 * camera. Prints each failure; the last line counts. Exit code 1 if anything failed or was forgotten.
 */
const file = new URL('../../shared/check-values.json', import.meta.url)
const records = JSON.parse(readFileSync(file, 'utf8'))
const outcome = runTruth(records)

for (const { id, where, expected, got, tolerance } of outcome.misses)
  console.log(`${id}${where}: expected ${JSON.stringify(expected)}, got ${JSON.stringify(got)}, tolerance ${tolerance}`)
for (const id of outcome.forgotten)
  console.log(
    `${id}: neither bound nor excused, or no such record; add it to src/commands/truth/bindings-*.ts or excuses.ts`,
  )
if (process.argv.includes('--excuses'))
  for (const { id, reason } of outcome.excused) console.log(`${id}: excused: ${reason}`)

const { passed, failed, excused, tables, surveys } = outcome
console.log(
  `${records.length} records: ${passed.length + failed.length - tables} formulas and ${tables} published tables and constants bound; ${surveys} survey means counted apart, among the excused`,
)
console.log(`${passed.length} passed, ${failed.length} failed, ${excused.length} excused`)
process.exitCode = failed.length + outcome.forgotten.length > 0 ? 1 : 0
