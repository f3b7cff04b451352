import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { source } from '../../src/commands/truth/binding'
import { BINDINGS } from '../../src/commands/truth/bindings'
import { EXCUSES } from '../../src/commands/truth/excuses'
import { type CheckValue, missesOf, toleranceFromWords } from '../../src/commands/truth/judge'
import { runTruth } from '../../src/commands/truth/run'
import { recording, scaled } from './mutate'

/** Sources of every value: in the file itself, beside the value. */
const records: readonly CheckValue[] = JSON.parse(readFileSync('shared/check-values.json', 'utf8'))
const outcome = runTruth(records)
const bound = records.filter(({ id }) => id in BINDINGS)

test('every published value comes out within its tolerance', () => {
  expect(outcome.misses).toEqual([])
})

test('at least 250 values are bound to formulas and pass, tables apart, and no record is counted twice or lost', () => {
  expect(outcome.passed.filter((id) => BINDINGS[id]!.kind === 'form').length).toBeGreaterThanOrEqual(250)
  expect(new Set(records.map(({ id }) => id)).size).toBe(records.length)
  expect(outcome.passed.length + outcome.failed.length + outcome.excused.length).toBe(records.length)
})

test('every record is bound or excused, and every binding and excuse has its record', () => {
  expect(outcome.forgotten).toEqual([])
  const used = new Set(outcome.excused.map(({ reason }) => reason))
  expect(Object.values(EXCUSES).filter((reason) => !used.has(reason))).toEqual([])
})

test('a tolerance that replaces the words of its record says why, unless the words have no number', () => {
  const silent = bound.filter(
    ({ id, tolerance }) => BINDINGS[id]!.within && !BINDINGS[id]!.note && toleranceFromWords(tolerance),
  )
  expect(silent.map(({ id }) => id)).toEqual([])
})

/** Exports whose records cannot see a factor, with what sees it instead. */
const BLIND: Readonly<Record<string, string>> = {
  BARE_DOME_FLUX:
    'its record is a span; tests/gear/stated holds every kind that throws all of the bare lamp to it within 0.5 %',
  srgbFromXyz: 'its record holds ratios to green; as the inverse of xyzFromSrgb it is judged in tests/photometry',
}

describe('a formula off by 1 % is found out', () => {
  const recordsByExport = new Map<string, CheckValue[]>()
  for (const record of bound) {
    const run = recording(source)
    missesOf(record, BINDINGS[record.id]!, run.source)
    for (const name of run.used) recordsByExport.set(name, [...(recordsByExport.get(name) ?? []), record])
  }

  test('there are many of them', () => {
    expect(recordsByExport.size).toBeGreaterThan(150)
  })

  test.each([...recordsByExport].filter(([name]) => !(name in BLIND)))('%s', (name, own) => {
    const wrong = scaled(source, name, 1.01)
    const caught = own.filter((record) => missesOf(record, BINDINGS[record.id]!, wrong).length > 0)
    expect(caught.length, `none of ${own.map(({ id }) => id).join(', ')} notices`).toBeGreaterThan(0)
  })
})
