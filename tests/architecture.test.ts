import { readdirSync, readFileSync, statSync } from 'node:fs'
import { dirname, join, relative, sep } from 'node:path'
import { expect, test } from 'vitest'

/**
 * The house: which rooms and packages each room of src/ may use, in reading order. Every arrow points up this list.
 * DEVELOPERS.md shows the same table with words; this one is enforced.
 */
interface Room {
  readonly rooms: readonly string[]
  readonly packages?: RegExp
}
const LIGHT = ['photometry', 'space']
const DOCUMENT = ['gear', 'figure', 'camera', ...LIGHT]
const PAGE =
  /^(three|@react-three\/(fiber|drei)|three-mesh-bvh|react|react-dom|zustand|leva|idb|@fontsource(-variable)?\/[\w-]+)(\/|$)/
const ROOMS: Readonly<Record<string, Room>> = {
  space: { rooms: [] },
  photometry: { rooms: ['space'] },
  camera: { rooms: LIGHT },
  figure: { rooms: ['space'] },
  gear: { rooms: LIGHT },
  sitting: { rooms: DOCUMENT, packages: /^zod$/ },
  kit: { rooms: ['sitting', ...DOCUMENT], packages: /^zod$/ },
  exchange: { rooms: LIGHT, packages: /^fflate$/ },
  rig: { rooms: ['sitting', ...DOCUMENT] },
  rays: { rooms: ['space'], packages: /^three(-mesh-bvh)?(\/|$)/ },
  bounce: { rooms: ['rig', ...LIGHT] },
  meter: { rooms: ['rig', 'camera', ...LIGHT] },
  readings: { rooms: ['meter', 'rig', 'sitting', ...DOCUMENT] },
  lesson: { rooms: ['readings', 'rig', 'sitting', ...DOCUMENT], packages: /^zod$/ },
  render: { rooms: ['bounce', 'rig', 'camera', ...LIGHT], packages: /^three(\/|$)/ },
  paper: { rooms: ['readings', 'rig', 'sitting', ...DOCUMENT] },
  print: { rooms: ['paper'], packages: /^pdfkit$/ },
  sheet: { rooms: ['print', 'paper', 'exchange', 'readings', 'meter', 'rig', 'sitting', ...DOCUMENT] },
  ui: { rooms: [], packages: PAGE },
  commands: { rooms: [], packages: /^(node:|playwright-core|three|vite|terser|meshoptimizer|zod)/ },
}
const ORDER = Object.keys(ROOMS)
const OPEN = ['ui', 'commands'] // these two carry and load: they may use every room but each other
const IMPURE_ROOMS = ['rays', 'render', ...OPEN]
const IMPURE =
  /\b(?:window|document|navigator|localStorage|fetch|performance|Date\.now|Math\.random)\b\s*[.(]|\bnew Date\(\)|\bnew Worker\b/
const BANNED_FOLDERS = ['utils', 'util', 'helpers', 'helper', 'common', 'shared', 'misc', 'managers', 'lib']
const MAX_LINES = 300
/** What src may read from beside itself: what it is shipped with, never its tests. */
const OUTSIDE = /^\.\.[\\/](assets|scenes)[\\/]/
const SRC = join(process.cwd(), 'src')

const walk = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    return statSync(path).isDirectory() ? walk(path) : [path]
  })
const paths = walk(SRC)
const code = paths.filter((path) => /\.(tsx?|mjs|glsl|css)$/.test(path))
const roomOf = (path: string): string => relative(SRC, path).split(sep)[0]
const withoutComments = (text: string): string => text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '')
const importsOf = (text: string): string[] =>
  [...text.matchAll(/(?:\bfrom|\bimport|\bimport\()\s*['"]([^'"]+)['"]/g)].map((match) => match[1])

function mayUse(room: string, other: string): boolean {
  return OPEN.includes(room) ? !OPEN.includes(other) : ROOMS[room].rooms.includes(other)
}

/** What is wrong with one import, as a sentence a newcomer can act on; null: nothing. */
function wrongImport(path: string, specifier: string): string | null {
  const room = roomOf(path)
  const where = relative(SRC, path)
  if (!specifier.startsWith('.'))
    return ROOMS[room].packages?.test(specifier) ? null : `${where}: ${room} must not use the package ${specifier}`
  const target = join(dirname(path), specifier)
  const other = roomOf(target)
  if (other === room) return null
  if (other === '..') return OUTSIDE.test(relative(SRC, target)) ? null : `${where}: src must not import ${specifier}`
  if (!mayUse(room, other)) return `${where}: ${room} must not import ${other}`
  const deep = relative(SRC, target).split(sep).length > 1 && !/[\\/]index(\.ts)?$/.test(target)
  return deep ? `${where}: import ${other} through its index, not ${specifier}` : null
}

function wrongs(path: string): string[] {
  const room = roomOf(path)
  const where = relative(SRC, path)
  const raw = readFileSync(path, 'utf8')
  const found: (string | null)[] = []
  const lines = raw.split('\n').length
  if (lines > MAX_LINES && !/[\\/]data[\\/]/.test(path)) found.push(`${where}: ${lines} lines, limit ${MAX_LINES}`)
  if (/\.tsx?$/.test(path) && room in ROOMS) {
    const text = withoutComments(raw)
    found.push(...importsOf(text).map((specifier) => wrongImport(path, specifier)))
    const impure = IMPURE_ROOMS.includes(room) ? null : text.match(IMPURE)
    if (impure) found.push(`${where}: a pure room uses ${impure[0]}; take it as an argument`)
  }
  return found.filter((problem) => problem !== null)
}

test('the room table is a ladder: no room imports one below it', () => {
  const upward = ORDER.flatMap((room) =>
    ROOMS[room].rooms.filter((other) => ORDER.indexOf(other) >= ORDER.indexOf(room)),
  )
  expect(upward).toEqual([])
})

test('src holds only the rooms of the table, main.tsx and type shims', () => {
  const others = readdirSync(SRC).filter((name) => !(name in ROOMS) && !/^(main\.tsx|[\w-]+\.d\.ts)$/.test(name))
  expect(others).toEqual([])
})

test('every room says in the first lines of its index what comes in and goes out', () => {
  const silent = ORDER.filter((room) => !OPEN.includes(room)).filter(
    (room) => !new RegExp(`^/\\*\\*[\\s*]*${room}:`).test(readFileSync(join(SRC, room, 'index.ts'), 'utf8')),
  )
  expect(silent).toEqual([])
})

test('no folder hides what it holds behind a general name', () => {
  const folders = paths.flatMap((path) => relative(SRC, dirname(path)).split(sep))
  expect(folders.filter((name) => BANNED_FOLDERS.includes(name))).toEqual([])
})

test('every source keeps to its room', () => {
  expect(code.length, 'an empty walk proves nothing').toBeGreaterThan(100)
  expect(code.flatMap(wrongs)).toEqual([])
})

test('the published values are read by nobody but the command that judges by them', () => {
  const readers = code.filter((path) => /check-values\.json['"`]/.test(readFileSync(path, 'utf8')))
  expect(readers.map((path) => relative(SRC, path).split(sep).join('/'))).toEqual(['commands/truth.ts'])
})
