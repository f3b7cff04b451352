import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { expect, test } from 'vitest'

/** Which rooms and packages each room of src/ may import. Reading order: every arrow points up this list. */
const ALL = [
  'space',
  'photometry',
  'camera',
  'figure',
  'gear',
  'sitting',
  'exchange',
  'rig',
  'rays',
  'bounce',
  'meter',
  'readings',
  'render',
  'paper',
  'lessons',
]
const ROOMS: Record<string, { rooms: string[]; packages?: RegExp }> = {
  space: { rooms: [] },
  photometry: { rooms: ['space'] },
  camera: { rooms: ['photometry', 'space'] },
  figure: { rooms: ['space'] },
  gear: { rooms: ['photometry', 'space'] },
  sitting: { rooms: ['gear', 'figure', 'camera', 'photometry', 'space'] },
  exchange: { rooms: ['photometry', 'space'] },
  rig: { rooms: ['sitting', 'gear', 'figure', 'camera', 'photometry', 'space'] },
  rays: { rooms: ['space'], packages: /^three(-mesh-bvh)?(\/|$)/ },
  bounce: { rooms: ['rig', 'photometry', 'space'] },
  meter: { rooms: ['rig', 'camera', 'photometry', 'space'] },
  readings: { rooms: ['meter', 'rig', 'sitting', 'gear', 'figure', 'camera', 'photometry', 'space'] },
  render: { rooms: ['bounce', 'rig', 'camera', 'photometry', 'space'], packages: /^three(\/|$)/ },
  paper: {
    rooms: ['readings', 'rig', 'sitting', 'gear', 'figure', 'camera', 'photometry', 'space'],
    packages: /^pdfkit(\/|$)/,
  },
  lessons: { rooms: ['readings', 'sitting', 'photometry'] },
  ui: { rooms: ALL, packages: /^(three|react|react-dom|@react-three|leva|zustand)(\/|$)/ },
  commands: { rooms: ALL, packages: /^(node:|playwright-core|three)/ },
}
const PURE = Object.keys(ROOMS).filter((room) => !ROOMS[room].packages)
const IMPURE_GLOBALS =
  /\b(?:window|document|navigator|localStorage|fetch|performance|Date\.now|Math\.random)\b\s*[.(]|\bnew Date\(\)/
const MAX_LINES = 300
const SRC = process.env.SRC ?? join(process.cwd(), 'src')

const sources = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    if (statSync(path).isDirectory()) return sources(path)
    return /\.tsx?$/.test(name) ? [path] : []
  })
const withoutComments = (text: string) => text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '')
const roomOf = (path: string) => relative(SRC, path).split(sep)[0]
const specifiers = (text: string) =>
  [...text.matchAll(/(?:from|import|import\()\s*['"]([^'"]+)['"]/g)].map((match) => match[1])

const files = sources(SRC).filter((path) => roomOf(path) in ROOMS)

/** Problems of one file, as sentences a newcomer can act on. */
function problems(path: string): string[] {
  const room = roomOf(path)
  const where = relative(SRC, path)
  const raw = readFileSync(path, 'utf8')
  const text = withoutComments(raw)
  const found: string[] = []
  for (const specifier of specifiers(text)) {
    if (specifier.startsWith('.')) {
      const target = join(path, '..', specifier)
      const to = roomOf(target)
      if (to === room) continue
      if (!ROOMS[room].rooms.includes(to)) found.push(`${where}: ${room} must not import ${to}`)
      else if (relative(SRC, target).split(sep).length > 1 && !/[\\/]index(\.ts)?$/.test(target))
        found.push(`${where}: import ${to} through its index, not ${specifier}`)
    } else if (!ROOMS[room].packages?.test(specifier))
      found.push(`${where}: ${room} must not use the package ${specifier}`)
  }
  const impure = PURE.includes(room) ? text.match(IMPURE_GLOBALS) : null
  if (impure) found.push(`${where}: pure room uses ${impure[0]}; take it as an argument`)
  const lines = raw.split('\n').length
  if (lines > MAX_LINES && !/\/data\//.test(path)) found.push(`${where}: ${lines} lines, limit ${MAX_LINES}`)
  return found
}

test('the room table is a ladder: no room imports one below it', () => {
  const order = Object.keys(ROOMS)
  const upward = order.flatMap((room) => ROOMS[room].rooms.filter((to) => order.indexOf(to) >= order.indexOf(room)))
  expect(upward).toEqual([])
})

test('every source keeps to its room', () => {
  expect(files.length, 'an empty walk proves nothing').toBeGreaterThan(0)
  expect(files.flatMap(problems)).toEqual([])
})

test('src holds only known rooms and main.tsx', () => {
  expect(readdirSync(SRC).filter((name) => !(name in ROOMS) && !/^(main\.tsx|vite-env\.d\.ts)$/.test(name))).toEqual([])
})
