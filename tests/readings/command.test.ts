import { spawnSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { readingsCommand } from '../../src/commands/readings-command'
import { firstSitting, setSitterShape, writeSitting } from '../../src/sitting'

const SCENE = 'scenes/hard-key-from-the-side.sitting.json'

test('prints a table with the words of the readings', async () => {
  const { code, out, err } = await readingsCommand([SCENE, '--paths', '0'])
  expect({ code, err }).toEqual({ code: 0, err: '' })
  expect(out).toMatch(/exposure\.nearCheek\.disc\.light +f\/[\d.]+ \+ 0\.\d/)
  expect(out).toMatch(/\d+ rays\.$/)
})

test('prints the records as JSON, lengths in feet where asked', async () => {
  const { readings, cautions, exposure } = JSON.parse(
    (await readingsCommand([SCENE, '--json', '--paths', '0', '--feet'])).out,
  )
  expect(readings.length).toBeGreaterThan(20)
  expect(readings[0]).toHaveProperty('why.formula')
  expect(Array.isArray(cautions)).toBe(true)
  expect(exposure).toHaveProperty('fNumber')
  expect(readings.find(({ id }: { id: string }) => id === 'source.A.tape').text).toMatch(/′/)
})

test('says what is wrong, with a code of its own: 1 for the file, 2 for the call', async () => {
  const bad = join(mkdtempSync(join(tmpdir(), 'halfshade-')), 'bad.json')
  writeFileSync(bad, '{"format": "halfshade.sitting", "version": 1}')
  const problems = await readingsCommand([bad])
  expect(problems.code).toBe(1)
  expect(problems.err).toMatch(/bad\.json: .*expected/)
  expect(problems.out).toBe('')
  const torn = setSitterShape(firstSitting(), 'sitter', { ageYears: 7 })
  writeFileSync(bad, JSON.stringify(torn))
  expect(await readingsCommand([bad])).toMatchObject({
    code: 1,
    err: expect.stringMatching(/^sitters\[0\]\.shape\.lengths: expected .*, got .*\. Move them nearer to a preset\.$/),
  })
  for (const [args, message] of [
    [[], /expected one file, got 0/],
    [['nowhere.json'], /nowhere\.json: cannot be opened/],
    [[SCENE, '--paths', 'many'], /--paths: expected a whole number from 0 to 65536, got many/],
    [[SCENE, '--loud'], /--loud: no such option/],
  ] as const) {
    const { code, err } = await readingsCommand(args)
    expect(code).toBe(2)
    expect(err).toMatch(message)
  }
})

test('--kit copies the entries that the sitting names anew, says so, and tells what is wrong with a kit file', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'halfshade-'))
  const [file, bad] = [join(folder, 'set.json'), join(folder, 'bad.kit.json')]
  const set = firstSitting()
  writeFileSync(
    file,
    writeSitting({ ...set, sources: set.sources.map((source) => ({ ...source, kit: { headId: 'head-200' } })) }),
  )
  const KIT = 'scenes/evening-class.kit.json'
  const { code, out, err } = await readingsCommand([file, '--paths', '0', '--kit', KIT])
  expect(code).toBe(0)
  expect(err).toBe(`From ${KIT}, A: head "200 J head".`)
  expect(out).toMatch(/source\.A\.power .*200 J/)
  writeFileSync(bad, '{"format": "halfshade.kit", "version": 1, "heads": 3}')
  const problems = await readingsCommand([file, '--kit', bad])
  expect(problems.code).toBe(1)
  expect(problems.err).toMatch(/bad\.kit\.json: heads: expected a list of heads, got 3\. Replace it/)
})

test('as a command: the message on the error stream, the code as exit status', () => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', 'tsx', 'src/commands/readings.ts', 'nowhere.json'],
    { encoding: 'utf8' },
  )
  expect(status).toBe(2)
  expect(stdout).toBe('')
  expect(stderr).toMatch(/nowhere\.json: cannot be opened/)
})
