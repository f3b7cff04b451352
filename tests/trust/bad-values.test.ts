import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { readingsCommand } from '../../src/commands/readings-command'
import { goalFrom, solve } from '../../src/readings'
import { placeLandmarks, sitterAround } from '../../src/rig'
import {
  addMeterPlace,
  EditRefused,
  firstSitting,
  moveMeter,
  readSitting,
  type Sitting,
  setPower,
  setSourcePlace,
  writeSitting,
} from '../../src/sitting'
import type { NumberRow, Row } from '../../src/ui/controls/model'
import { sheetOf } from '../../src/ui/controls/sheet'
import { parseWithin } from '../../src/ui/values'
import { inputOf } from '../readings/set'

/** What nobody can mean gets a clear word, by every way it may be typed, and the sitting stays as it was. */

const first = firstSitting()
const { rig, bodies, caster } = inputOf(first)
const marks = placeLandmarks(rig.figures[0]!)
const source = first.sources[0]!.id

const flat = (rows: readonly Row[]): readonly Row[] =>
  rows.flatMap((row) => (row.kind === 'fold' ? flat(row.rows) : [row]))
const rowOf = (thing: string, id: string): NumberRow => {
  const rows = flat(sheetOf({ sitting: first, marks, exposure: null }, thing)!.groups.flatMap((group) => group.rows))
  return rows.find((row): row is NumberRow => row.kind === 'number' && row.id === id)!
}

test.each([
  [source, 'tape', '-1 m', /expected 0\.05 m to 20\.00 m, got −1\.00 m/],
  [source, 'tape', 'NaN', /expected a length such as/],
  [source, 'head', '0 J', /expected 1 J to 6400 J, got 0 J/],
  [source, 'power', '+3 stops', /expected|got/],
  ['camera', 'fNumber', 'f/0', /expected/],
  ['camera', 'iso', 'many', /expected a sensitivity such as ISO 100, got “many”/],
  ['camera', 'iso', 'NaN', /expected a sensitivity/],
  ['camera', 'shutter', '-1/60', /expected/],
])('typed on the page: %s %s %s', (thing, id, typed, words) => {
  const row = rowOf(thing, id)
  const parsed = parseWithin(row.quantity, typed, row.range, 'metres')
  expect(parsed.ok ? 'taken' : parsed.message).toMatch(words)
})

test.each<[string, (sitting: Sitting) => Sitting, RegExp]>([
  ['a negative distance', (s) => setSourcePlace(s, source, { tapeM: -1 }, marks), /expected 0\.05 to 20 m, got -1/],
  ['a distance that is no number', (s) => setSourcePlace(s, source, { tapeM: Number.NaN }, marks), /got NaN/],
  ['a power that is no number', (s) => setPower(s, source, Number.NaN), /stops, got NaN/],
  [
    'a meter inside the head',
    (s) => {
      const added = addMeterPlace(s)
      return moveMeter(added.sitting, added.id, [0, 1.2, -0.05], (point) => sitterAround(rig, point))
    },
    /inside the sitter.*in front of the skin/,
  ],
])('as an edit: %s', (_, edit, words) => {
  const before = writeSitting(first)
  const refused = () => edit(first)
  expect(refused).toThrow(EditRefused)
  expect(refused).toThrow(words)
  expect(writeSitting(first)).toBe(before)
})

test.each([
  [{ camera: { fNumber: 0 } }, /camera\.fNumber: expected a number from 0\.7 to 128, got 0\. Change it/],
  [{ camera: { iso: 'many' } }, /camera\.iso: expected a number from 6 to 409600, got "many"\. Replace it/],
  [{ camera: { shutterS: null } }, /camera\.shutterS: expected a number from 0\.0001 to 60 s, got null/],
  [{ head: { energyJ: 0 } }, /sources\[0\]\.head\.energyJ: expected a number from 1 to 6400 J, got 0\. Change it/],
])('in a file, by the command: %o', async (change: { camera?: object; head?: object }, words) => {
  const [one, ...others] = first.sources
  const spoiled = {
    ...first,
    camera: { ...first.camera, ...change.camera },
    sources: [{ ...one, head: { ...one!.head, ...change.head } }, ...others],
  }
  const file = join(mkdtempSync(join(tmpdir(), 'halfshade-')), 'bad.sitting.json')
  writeFileSync(file, JSON.stringify(spoiled))
  const { code, out, err } = await readingsCommand([file])
  expect([code, out]).toEqual([1, ''])
  expect(err).toMatch(words)
  expect('problems' in readSitting(spoiled)).toBe(true)
})

test.each(['f/0', 'f/-8', 'f/NaN', 'key:fill 0:1', 'hair', 'fill lots'])('asked of the solver: %s', (words) => {
  const before = writeSitting(first)
  const goal = goalFrom(words, first)
  const said =
    typeof goal === 'string'
      ? goal
      : solve(
          { sitting: first, scene: { rig, bodies: bodies!, caster }, again: () => ({ rig, bodies: bodies!, caster }) },
          goal,
        )
  expect(typeof said === 'string' ? said : said.way === null && said.sentence).toMatch(/expected .*(, got|got "|ask)/i)
  expect(writeSitting(first)).toBe(before)
})
