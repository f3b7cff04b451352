import { execFileSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { beforeAll, describe, expect, test } from 'vitest'
import { sheetFonts } from '../../src/commands/sheet-fonts'
import { readFigureAsset } from '../../src/figure'
import { bodiesOf } from '../../src/meter'
import { type Drawing, tapesTo } from '../../src/paper'
import { type Block, type Cell, leadRoom, plain, sizeOnPaper, type Words, writeHtml, writePdf } from '../../src/print'
import { laidOnPaper } from '../../src/print/scale-drawing'
import { createRayCaster } from '../../src/rays'
import { takeReadings } from '../../src/readings'
import { assembleRig, loadCentre } from '../../src/rig'
import { type SetUpSheet, type SheetInput, setUpSheet, sheetDocument, spotFrom } from '../../src/sheet'
import { drawingsOf } from '../../src/sheet/drawings'
import { readSitting, type Sitting } from '../../src/sitting'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const MADE_AT = new Date('2026-11-25T00:00:00Z')

function sittingOf(scene: string): Sitting {
  const read = readSitting(readFileSync(`scenes/${scene}.sitting.json`, 'utf8'))
  if ('problems' in read) throw new Error(scene)
  return read.sitting
}

function inputOf(sitting: Sitting): SheetInput {
  const rig = assembleRig(sitting, { figure })
  const bodies = bodiesOf(rig)
  return { sitting, rig, ...takeReadings({ sitting, rig, bodies, caster: createRayCaster(bodies.bodies), paths: 0 }) }
}

const MM_PER_PT = 25.4 / 72
type Point = readonly [number, number]

/** Every path of a page as lists of points, millimetres from its upper left corner, by another reader of PDF. */
async function readPdf(bytes: Uint8Array) {
  const pdf = await getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise
  const texts: string[] = []
  const paths: Point[][] = []
  for (let n = 1; n <= pdf.numPages; n++) {
    const page = await pdf.getPage(n)
    const { items } = await page.getTextContent()
    texts.push(items.map((item) => ('str' in item ? item.str + (item.hasEOL ? '\n' : '') : '')).join(''))
    if (n > 1) continue
    const height = page.view[3]
    const { fnArray, argsArray } = await page.getOperatorList()
    let matrix = [1, 0, 0, 1, 0, 0]
    const kept: number[][] = []
    fnArray.forEach((fn: number, i: number) => {
      if (fn === OPS.save) kept.push(matrix)
      else if (fn === OPS.restore) matrix = kept.pop()!
      else if (fn === OPS.transform) {
        const [a, b, c, d, e, f] = argsArray[i]
        const [p, q, r, s, t, u] = matrix
        matrix = [p * a + r * b, q * a + s * b, p * c + r * d, q * c + s * d, p * e + r * f + t, q * e + s * f + u]
      } else if (fn === OPS.constructPath) paths.push(...pointsOf(argsArray[i][1][0], matrix, height))
    })
  }
  const tree = await (await pdf.getPage(1)).getStructTree()
  return { texts, paths, tree, count: pdf.numPages }
}

/** Ends of the segments of a path: moveTo 0, lineTo 1, curveTo 2, close 4. */
function pointsOf(data: ArrayLike<number> | null, [a, b, c, d, e, f]: number[], height: number): Point[][] {
  const lists: Point[][] = []
  for (let i = 0; data && i < data.length; ) {
    const op = data[i++]
    const skip = op === 2 ? 4 : op === 3 ? 2 : 0
    if (op === 4) continue
    const [x, y] = [data[i + skip], data[i + skip + 1]]
    i += skip + 2
    const at: Point = [(a * x + c * y + e) * MM_PER_PT, (height - (b * x + d * y + f)) * MM_PER_PT]
    if (op === 0) lists.push([])
    lists.at(-1)?.push(at)
  }
  return lists
}

const apart = (p: Point, q: Point) => Math.hypot(p[0] - q[0], p[1] - q[1])
const middle = (points: readonly Point[]): Point => {
  const xs = points.map(([x]) => x)
  const ys = points.map(([, y]) => y)
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2]
}

/** What a ruler finds on the first page. Each scale is the one printed over its drawing. */
const scaleOf = (page: string, drawing: string): number => {
  const found = new RegExp(`${drawing}.* 1 : (\\d+)`).exec(page)
  return 1000 / Number(found?.[1])
}

const isWords = (cell: Cell): cell is Words => typeof cell === 'string' || Array.isArray(cell)
const textsOf = (shapes: Drawing['shapes']): readonly string[] =>
  shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []))
const isLevel = ([p, q]: readonly Point[]): boolean => Math.abs(p![1] - q![1]) < 0.01
const isUpright = ([p, q]: readonly Point[]): boolean => Math.abs(p![0] - q![0]) < 0.01

describe.each([
  ['notice-board', 'a4'],
  ['hard-key-from-the-side', 'letter'],
] as const)('%s, %s', (scene, paper) => {
  const sitting = sittingOf(scene)
  let sheet: SetUpSheet
  let read: Awaited<ReturnType<typeof readPdf>>
  beforeAll(async () => {
    const input = inputOf(sitting)
    sheet = setUpSheet(input)
    const document = sheetDocument(input, sheet, { paper, madeAt: MADE_AT, picture: null })
    read = await readPdf(await writePdf(document, paper, await sheetFonts()))
  })

  test('ruler on the plan (trust test 15, trade.md): what is re-measured on the vectors is the sitting within 0.5 mm', () => {
    const mm = scaleOf(read.texts[0]!, 'Plan')
    const long = (points: readonly Point[], length: number) =>
      points.length === 2 && Math.abs(apart(points[0], points[1]) - length) < 0.05
    // X and Z are crosses of 0.1 m: two strokes with one middle.
    const strokes = read.paths.filter((points) => long(points, 0.1 * mm))
    const crosses = strokes
      .filter((a, i) => strokes.some((b, j) => j > i && apart(middle(a), middle(b)) < 0.01))
      .map(middle)
      .sort((a, b) => b[1] - a[1])
    expect(crosses).toHaveLength(2)
    const [x, z] = crosses
    expect(Math.abs(apart(x, z) - sitting.backdrop!.distanceM * mm)).toBeLessThan(0.5)
    const bar = read.paths.filter(
      (points) => points.length >= 4 && Math.abs(points[1][0] - points[0][0] - 0.2 * mm) < 0.02,
    )
    expect(bar.length).toBeGreaterThanOrEqual(5)
    // The bar over the plan is the first from above.
    const row = Math.min(...bar.map((points) => points[0][1]))
    const xs = bar.filter((points) => points[0][1] - row < 1).flatMap((points) => points.map((p) => p[0]))
    expect(Math.abs(Math.max(...xs) - Math.min(...xs) - mm)).toBeLessThan(0.1)
    const onPaper = (across: number, back: number): Point => [x[0] + across * mm, x[1] + back * mm]
    // The stand's foot is a dot 24 mm across.
    const dots = read.paths.filter(
      (points) => points.length > 3 && Math.abs(apart(points[0], points[2]) - 0.024 * mm) < 0.05,
    )
    const foot = loadCentre(inputOf(sitting).rig.sources[0])
    expect(Math.min(...dots.map((dot) => apart(middle(dot), onPaper(foot[0], foot[2]))))).toBeLessThan(0.5)
    // The lens is where both edges of its field begin, evenly to either side.
    const pairs = read.paths.flatMap((a, i) =>
      read.paths
        .slice(i + 1)
        .filter((b) => a.length === 2 && b.length === 2 && apart(a[0], b[0]) < 0.01)
        .filter((b) => !isUpright(a) && Math.abs(a[1][0] + b[1][0] - 2 * a[0][0]) < 0.01)
        .map(() => a[0]),
    )
    const [across, , back] = sitting.camera.positionM
    expect(Math.min(...pairs.map((lens) => apart(lens, onPaper(across, back))))).toBeLessThan(0.5)
    for (const panel of sitting.panels) {
      const board = read.paths.find(
        (points) => points.length >= 4 && apart(middle(points), onPaper(panel.centreM[0], panel.centreM[2])) < 0.5,
      )
      const depths = board!.map((p) => p[1])
      expect(Math.abs(Math.max(...depths) - Math.min(...depths) - panel.widthM * mm)).toBeLessThan(0.5)
    }
  })

  test('ruler on the elevation: eye line, centre, top and lower edge stand as high over the floor within 0.5 mm', () => {
    const mm = scaleOf(read.texts[0]!, '(?:Elevation|and) square to A')
    const lines = read.paths.filter((points) => points.length === 2)
    const right = (points: readonly Point[]) => Math.max(...points.map(([x]) => x))
    // An upright line from the floor to the top edge, which three level ones cross by 4 cm.
    const [upright, levels] = lines
      .filter(isUpright)
      .map(
        (up) =>
          [up, lines.filter((one) => isLevel(one) && Math.abs(right(one) - up[0][0] - 0.04 * mm) < 0.05)] as const,
      )
      .find(([, crossing]) => crossing.length === 3)!
    const floor = Math.max(...upright.map(([, y]) => y))
    const heights = levels.map(([[, y]]) => (floor - y) / mm).sort((a, b) => a - b)
    const { centreM, aimM, modifier } = sitting.sources[0]
    // A round mouth whose axis points at the aim: its rim reaches r·cos(slope) over and under the centre.
    const level = Math.hypot(centreM[0] - aimM[0], centreM[2] - aimM[2])
    const reach = (Number(modifier.diameterM) / 2) * Math.cos(Math.atan2(centreM[1] - aimM[1], level))
    const expected = [centreM[1] - reach, centreM[1], centreM[1] + reach]
    heights.forEach((height, i) => {
      expect(Math.abs(height - expected[i]!) * mm, `${i}: ${height} m for ${expected[i]}`).toBeLessThan(0.5)
    })
    // The eye line, and the floor, end 1 cm farther right than they do.
    const eyes = lines.filter((one) => isLevel(one) && Math.abs(right(one) - upright[0][0] - 0.05 * mm) < 0.05)
    const [eyeLine, ...rest] = eyes.map(([[, y]]) => y).sort((a, b) => a - b)
    expect(rest).toEqual([expect.closeTo(floor, 2)])
    expect(Math.abs(floor - eyeLine! - sitting.sitters[0].eyeHeightM * mm)).toBeLessThan(0.5)
  })

  test('the printed tapes put every foot back within a centimetre', () => {
    const text = read.texts.join('\n').replace(/−/g, '-')
    const feet = '(?:\\d+′\\s?)?\\d*½?″'
    for (const { name, at } of sheet.tape) {
      const row = text.match(
        new RegExp(
          `${name.replace(', ', ',\\s*')}\\s*([\\d.]+)\\s*${feet}\\s*([\\d.]+)\\s*${feet}\\s*([\\d.]+)( [RL])?`,
        ),
      )
      expect(row, `${name} in ${text.slice(0, 900)}`).not.toBeNull()
      const [fromX, fromZ, off] = [1, 2, 3].map((i) => Number(row![i]))
      const found = searched(fromX, fromZ, row![4] === ' L' ? -off : off, sitting.backdrop!.distanceM)
      expect(apart(found, at)).toBeLessThanOrEqual(0.01 + 1e-6)
    }
  })

  test('each page says date, version and its number; the first says the five cautions (trade.md §6)', () => {
    read.texts.forEach((text, i) => {
      for (const words of ['25 November 2026', `version ${sheet.version}`, `page ${i + 1} of ${read.count}`])
        expect(text).toContain(words)
    })
    // Falling stands, trips, mains, hot parts, sensitive eyes.
    const first = read.texts[0]!.replace(/\s+/g, ' ')
    for (const words of [
      'bag the stand',
      'Leads along walls',
      'fault-current switch',
      'Lamps stay hot',
      'light sensitivity',
    ])
      expect(first).toContain(words)
  })
})

describe('notice board, A4, 1 : 25', () => {
  const sitting = sittingOf('notice-board')
  let input: SheetInput
  let sheet: SetUpSheet
  let bytes: Uint8Array
  let read: Awaited<ReturnType<typeof readPdf>>
  const pdf = async () =>
    writePdf(sheetDocument(input, sheet, { paper: 'a4', madeAt: MADE_AT, picture: null }), 'a4', await sheetFonts())
  beforeAll(async () => {
    input = inputOf(sitting)
    sheet = setUpSheet(input)
    bytes = await pdf()
    read = await readPdf(bytes)
  })

  test('fonts are embedded, text can be selected, the structure begins with the title, and one moment gives one file', async () => {
    const raw = new TextDecoder('latin1').decode(bytes)
    const fonts = raw.match(/\/FontDescriptor \d+ 0 R/g) ?? []
    expect(new Set(fonts).size).toBe(2)
    expect(raw.match(/\/FontFile2 \d+ 0 R/g)).toHaveLength(2)
    expect(raw).toContain('/Marked true')
    expect(read.texts[0]).toContain('Notice board portrait')
    expect(read.texts[0]).toContain(`page 1 of ${read.count}`)
    const roles = JSON.stringify(read.tree).match(/"role":"\w+"/g)!
    expect(roles.find((role) => role !== '"role":"Root"' && role !== '"role":"Document"')).toBe('"role":"H1"')
    expect(Buffer.compare(bytes, await pdf())).toBe(0)
  })

  /** Titles in the order in which a reader should come to them, as the document has it. */
  const titles = () => {
    const { title, subtitle, sections } = sheetDocument(input, sheet, { paper: 'a4', madeAt: MADE_AT, picture: null })
    return [title, subtitle, ...sections.map((section) => section.title)]
  }
  /** Each stands after the one before it; blanks and breaks of lines count alike. */
  function expectInOrder(pages: readonly string[]): void {
    const plain = (text: string) => text.replace(/\s+/g, ' ')
    const all = plain(pages.join(' '))
    let from = 0
    for (const words of titles().map(plain)) {
      const at = all.indexOf(words, from)
      expect(at, `${words}, after ${all.slice(Math.max(0, from - 40), from)}`).toBeGreaterThanOrEqual(0)
      from = at + words.length
    }
  }

  test('one reader of PDF (pdf.js) finds as many pages as the sheet says, and its titles in order', () => {
    expect(read.texts).toHaveLength(read.count)
    read.texts.forEach((text, i) => {
      expect(text).toContain(`page ${i + 1} of ${read.count}`)
    })
    expectInOrder(read.texts)
  })

  // Where its tools are installed: POPPLER=1.
  test.runIf(process.env.POPPLER)('another one (poppler) finds the same pages and the same order', () => {
    const file = join(mkdtempSync(join(tmpdir(), 'sheet-')), 'sheet.pdf')
    writeFileSync(file, bytes)
    const run = (tool: string, ...how: string[]) => execFileSync(tool, how, { encoding: 'utf8' })
    const told = run('pdfinfo', file)
    expect(told).toMatch(/Tagged:\s+yes/)
    expect(told).toMatch(new RegExp(`Pages:\\s+${read.count}\\n`))
    const pages = run('pdftotext', '-raw', file, '-').split('\f').slice(0, -1)
    expect(pages).toHaveLength(read.count)
    expectInOrder(pages)
  })

  test('a long look goes on under itself, to its last word, and drawings and tables give it the room', async () => {
    const words = Array.from({ length: 24 }, (_, i) => `look${i}`)
    const long = { ...sheet, look: `${words.join(' ')} end.` }
    const printed = sheetDocument(input, long, { paper: 'a4', madeAt: MADE_AT, picture: null })
    const made = await writePdf(printed, 'a4', await sheetFonts())
    const longer = await readPdf(made)
    expect(longer.texts[0]).toMatch(/look0[\s\S]*look23\s+end\./)
    const height = async (pdf: Uint8Array, text: string) => {
      const page = await (await getDocument({ data: pdf.slice(), verbosity: 0 }).promise).getPage(1)
      const { items } = await page.getTextContent()
      return items.flatMap((item) => ('str' in item && item.str.includes(text) ? [item.transform[5]] : []))[0]!
    }
    const [last, camera, before] = [
      await height(made, 'look23'),
      await height(made, 'Camera'),
      await height(bytes, 'Camera'),
    ]
    // In points from below: the table begins a line under its old place, and clear of the look's last line.
    expect(camera).toBeLessThan(before - 10)
    expect(camera).toBeLessThan(last - 11)
  })

  test('no text under 11 pt and no line under 0.35 mm (LOOK: print)', async () => {
    const pdf = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise
    expect(pdf.numPages).toBe(read.count)
    for (let n = 1; n <= pdf.numPages; n++) {
      const page = await pdf.getPage(n)
      const { items } = await page.getTextContent()
      const sizes = items.flatMap((item) =>
        'str' in item && item.str.trim() ? [Math.hypot(item.transform[2], item.transform[3])] : [],
      )
      expect(Math.min(...sizes)).toBeGreaterThan(10.99)
      const { fnArray, argsArray } = await page.getOperatorList()
      const widths = fnArray.flatMap((fn: number, i: number) => (fn === OPS.setLineWidth ? [argsArray[i][0]] : []))
      // Those of halos are in units of the font, far wider.
      expect(Math.min(...widths) * MM_PER_PT).toBeGreaterThanOrEqual(0.349)
    }
  })

  test('HTML holds the same, needs nothing from elsewhere and lets no words become marks', () => {
    const evil = { ...sheet, title: '<script>alert(1)</script>' }
    const html = writeHtml(sheetDocument(input, evil, { paper: 'a4', madeAt: MADE_AT, picture: null }))
    expect(html).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/)
    expect(html).toContain('type="checkbox"')
  })

  test('HTML says every word of the document that the PDF is made from, and draws every drawing', () => {
    const document = sheetDocument(input, sheet, { paper: 'a4', madeAt: MADE_AT, picture: null })
    const html = writeHtml(document)
    const words = html
      .replace(/<style>.*?<\/style>/s, '')
      .replace(/<br>/g, '\n')
      .replace(/<[^>]+>/g, '')
      .replace(/&#39;/g, "'")
    const said = (block: Block): readonly string[] => {
      if (block.kind === 'words') return [plain(block.words)]
      if (block.kind === 'drawing')
        return [block.caption, ...textsOf(laidOnPaper(block.drawing, block.scale).drawing.shapes)]
      if (block.kind !== 'table') return []
      const heads = block.columns.flatMap(({ head }) => head ?? [])
      return [...heads, ...block.rows.flat().flatMap((cell) => (isWords(cell) ? [plain(cell)] : []))]
    }
    const { title, subtitle, notes, lead, sections, foot } = document
    const blocks = [...lead, ...sections.flatMap((section) => section.blocks)]
    const all = [title, subtitle, ...notes, ...sections.map((one) => one.title), ...blocks.flatMap(said), plain(foot)]
    expect(all.length).toBeGreaterThan(200)
    expect(all.filter((text) => !words.includes(text))).toEqual([])
    expect(html.match(/<svg xmlns/g)).toHaveLength(blocks.filter(({ kind }) => kind === 'drawing').length)
  })
})

/** The spot that disagrees least with three figures, looked for on finer and finer grids: x to camera right, z to the camera. */
function searched(fromX: number, fromZ: number, off: number, toZ: number): Point {
  const bad = ([x, z]: Point) =>
    (Math.hypot(x, z) - fromX) ** 2 + (Math.hypot(x, z + toZ) - fromZ) ** 2 + (x - off) ** 2
  let best: Point = [off, (fromZ ** 2 - fromX ** 2 - toZ ** 2) / (2 * toZ)]
  for (let step = 0.1; step > 1e-5; step /= 2)
    for (let moved = true; moved; ) {
      const [x, z] = best
      const around: Point[] = [-1, 0, 1].flatMap((i) => [-1, 0, 1].map((j): Point => [x + i * step, z + j * step]))
      const next = around.reduce((a, b) => (bad(b) < bad(a) ? b : a))
      moved = bad(next) < bad(best) - 1e-15
      best = next
    }
  return best
}

test('three exact tapes give the very spot back, wherever it lies', () => {
  const metres = fc.double({ min: -6, max: 6, noNaN: true })
  fc.assert(
    fc.property(metres, metres, fc.double({ min: 0.5, max: 5, noNaN: true }), (x, z, toZ) => {
      const fixed = { x: [0, 0], z: [0, -toZ], zIs: 'foot of the backdrop' } as const
      const spot = spotFrom(fixed, tapesTo(fixed, [x, z]))
      expect(apart(spot!, [x, z])).toBeLessThan(1e-6)
    }),
  )
})

test.each(['a4', 'letter'] as const)(
  'on %s every drawing of every ready sitting is 1 : 50 or larger (trade.md §5: 1 : 20, 1 : 25 or 1 : 50), and those beside the tables have room',
  (paper) => {
    const scenes = readdirSync('scenes').flatMap((file) => /^(.+)\.sitting\.json$/.exec(file)?.[1] ?? [])
    expect(scenes.length).toBeGreaterThanOrEqual(6)
    for (const scene of scenes) {
      const sitting = sittingOf(scene)
      const exposure = { fNumber: sitting.camera.fNumber, factorStops: 0, perSourceStops: {} }
      const input = { sitting, rig: assembleRig(sitting, { figure }), readings: [], cautions: [], exposure }
      const look = 'a look as long as most'.repeat(3)
      const { lead, more } = drawingsOf(input, paper, look)
      for (const block of [...lead, ...more.flatMap(({ blocks }) => blocks)])
        if (block.kind === 'drawing') expect(block.scale, `${scene}: ${block.caption}`).toBeLessThanOrEqual(50)
      const sizes = lead.map((block) => (block.kind === 'drawing' ? sizeOnPaper(block.drawing, block.scale) : null)!)
      const room = leadRoom(paper, 3, look)
      expect(
        sizes.reduce((sum, { height }) => sum + height, 0),
        scene,
      ).toBeLessThan(room.height)
      for (const { width } of sizes) expect(width, scene).toBeLessThanOrEqual(room.width)
    }
  },
)
