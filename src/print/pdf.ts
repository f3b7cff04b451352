import { type Atom, atomsOf, stack } from './blocks'
import {
  FOOT_RULE,
  type Frame,
  HEAD,
  LINE,
  MARGIN,
  MOST_SUBTITLE_LINES,
  type Pages,
  pagesOf,
  RULE,
  SECTION,
  SHEETS,
  TITLE_PT,
} from './layout'
import { Pen } from './pen'
import { drawLines } from './table'
import type { Fonts, PaperSize, PrintDocument, Section } from './types'

const TITLE_LINE = 1.12 * TITLE_PT * (25.4 / 72)

/** Atoms of one section that stand in one frame; titled: with the section's rule and title over them. */
interface Placed {
  readonly frame: Frame
  readonly y: number
  readonly section: Section
  readonly atoms: readonly Atom[]
  readonly titled: boolean
}

/** Height of the foot of a document on that paper, mm. */
function footHeight(pen: Pen, { foot }: Pick<PrintDocument, 'foot'>, paper: PaperSize): number {
  return FOOT_RULE + pen.lines(foot, SHEETS[paper].width - 2 * MARGIN.side).length * LINE
}

/** Under the title over the whole width, in as many lines as it takes; past the last of them it ends. */
const subtitleOf = (pen: Pen, { subtitle }: PrintDocument, paper: PaperSize): ReturnType<Pen['lines']> =>
  pen.lines(subtitle, SHEETS[paper].width - 2 * MARGIN.side).slice(0, MOST_SUBTITLE_LINES)

/**
 * A document as a PDF: black on white, vectors and embedded fonts, tagged in reading order, its language English. The same
 * document, fonts and moment give the same bytes.
 */
export async function writePdf(printed: PrintDocument, paper: PaperSize, fonts: Fonts): Promise<Uint8Array> {
  const { title, madeAt } = printed
  const pen = new Pen(paper, fonts, { title, madeAt, language: 'en' })
  const subtitle = subtitleOf(pen, printed, paper)
  const pages = pagesOf(paper, printed.lead.length > 0, footHeight(pen, printed, paper), subtitle.length)
  const placed = placeSections(pen, printed.sections, pages)
  const count = 1 + Math.max(0, ...placed.map(({ frame }) => frame.page))
  const root = pen.doc.struct('Document')
  pen.doc.addStructure(root)
  for (let page = 0; page < count; page++) {
    pen.doc.addPage()
    if (page === 0) drawFirst(pen, root, printed, subtitle, pages, count)
    else drawRunningHead(pen, printed, pages, ofPages(page, count))
    for (const part of placed.filter(({ frame }) => frame.page === page)) drawPart(pen, root, part)
  }
  root.end()
  return pen.done()
}

/** Of a section's title with the rule over it; at the top of a frame there is none. */
const titleHeight = (pen: Pen, { title }: Section, width: number, isAtTop: boolean): number =>
  (isAtTop ? 0 : SECTION.before + SECTION.rule) + pen.lines([{ bold: title }], width).length * LINE + SECTION.after

/** Where the next thing stands: goes down a frame, and on from frame to frame. */
class Flow {
  private index = 0
  y: number

  constructor(private readonly pages: Pages) {
    this.y = pages.frame(0).y
  }

  get frame(): Frame {
    return this.pages.frame(this.index)
  }
  get room(): number {
    return this.frame.y + this.frame.height - this.y
  }
  get isAtTop(): boolean {
    return this.y === this.frame.y
  }
  next(): void {
    this.index++
    this.y = this.frame.y
  }
  newPage(): void {
    const { page } = this.frame
    if (this.isAtTop && (this.index === 0 || this.pages.frame(this.index - 1).page < page)) return
    while (this.frame.page === page) this.next()
  }
  /** Whether something so tall would stand whole in the frame after this one. */
  fitsNext(tall: (width: number) => number): boolean {
    const { width, height } = this.pages.frame(this.index + 1)
    return tall(width) <= height
  }
}

const sumOf = (atoms: readonly Atom[], width: number): number =>
  atoms.reduce((sum, atom) => sum + atom.height(width), 0)

/** Sections in order through the frames: whole where one frame holds them, else parted between atoms. */
function placeSections(pen: Pen, sections: readonly Section[], pages: Pages): readonly Placed[] {
  const placed: Placed[] = []
  const flow = new Flow(pages)
  for (const section of sections) {
    let rest = section.blocks.flatMap((block) => atomsOf(pen, block))
    const tall = (width: number) => titleHeight(pen, section, width, flow.isAtTop) + sumOf(rest, width)
    if (section.onNewPage) flow.newPage()
    if (tall(flow.frame.width) > flow.room && !flow.isAtTop && flow.fitsNext(tall)) flow.next()
    let titled = true
    do {
      const { frame, y } = flow
      const head = titled ? titleHeight(pen, section, frame.width, flow.isAtTop) : 0
      const taken = howMany(rest, frame.width, flow.room - head, flow.isAtTop)
      if (taken > 0 || rest.length === 0) {
        const atoms = rest.slice(0, taken)
        placed.push({ frame, y, section, atoms, titled })
        flow.y += head + sumOf(atoms, frame.width)
        rest = rest.slice(taken)
        titled = false
      }
      if (rest.length > 0) flow.next()
    } while (rest.length > 0)
  }
  return placed
}

/** How many of the first atoms have room; of a whole empty frame at least one is taken, or it would stand nowhere. */
function howMany(atoms: readonly Atom[], width: number, room: number, isEmptyFrame: boolean): number {
  let used = 0
  const count = atoms.findIndex((atom) => {
    used += atom.height(width)
    return used > room + 1e-6
  })
  const fitting = count < 0 ? atoms.length : count
  return isEmptyFrame && atoms.length > 0 ? Math.max(1, fitting) : fitting
}

function drawPart(pen: Pen, root: PDFKit.PDFStructureElement, { frame, y, section, atoms, titled }: Placed): void {
  const { x, width } = frame
  let at = y
  const element = pen.doc.struct('Sect')
  root.add(element)
  if (titled) {
    if (y > frame.y) {
      pen.artifact(() =>
        pen.line(
          [
            [x, y + SECTION.before],
            [x + width, y + SECTION.before],
          ],
          { widthMm: RULE.thin },
        ),
      )
      at += SECTION.before + SECTION.rule
    }
    const lines = pen.lines([{ bold: section.title }], width)
    const top = at
    pen.tagged(element, 'H2', () => drawLines(pen, lines, x, top))
    at += lines.length * LINE + SECTION.after
  }
  stack(atoms, element, x, at, width)
  element.end()
}

const ofPages = (page: number, count: number): string => `page ${page + 1} of ${count}`

function drawFirst(
  pen: Pen,
  root: PDFKit.PDFStructureElement,
  printed: PrintDocument,
  subtitle: ReturnType<Pen['lines']>,
  pages: Pages,
  count: number,
): void {
  const { side, top } = MARGIN
  const right = pages.width - side
  // In two lines at most: under them the subtitle has the whole width.
  const last = [...printed.notes.slice(1), ofPages(0, count)].join(', ')
  const notes = [...printed.notes.slice(0, 1), last].map((note) => pen.lines(note, 80)[0])
  const wide = right - side - Math.max(...notes.map(({ width }) => width)) - 6
  const titles = pen.lines([{ bold: printed.title }], wide, titlePt(pen, printed.title, wide))
  pen.tagged(root, 'H1', () => {
    pen.setLine(titles[0], side, top - 1.5, 'left', titlePt(pen, printed.title, wide))
  })
  pen.tagged(root, 'P', () => drawLines(pen, subtitle, side, top + TITLE_LINE - 1))
  pen.tagged(root, 'P', () => drawLines(pen, notes, right, top - 1.2, 'right'))
  pen.artifact(() => rule(pen, side, right, pages.lead.y - 2.4))
  const lead = pen.doc.struct('Sect')
  root.add(lead)
  stack(
    printed.lead.flatMap((block) => atomsOf(pen, block)),
    lead,
    pages.lead.x,
    pages.lead.y,
    pages.lead.width,
  )
  lead.end()
  pen.artifact(() => rule(pen, side, right, pages.foot.y))
  pen.tagged(root, 'P', () => drawLines(pen, pen.lines(printed.foot, pages.foot.width), side, pages.foot.y + FOOT_RULE))
}

/** The title's size: smaller where it would not go on one line, never under the text's. */
const titlePt = (pen: Pen, title: string, width: number): number =>
  [TITLE_PT, 18, 15, 13, 11].find((size) => pen.width([{ bold: title }], size) <= width) ?? 11

const rule = (pen: Pen, from: number, to: number, y: number): void =>
  pen.line(
    [
      [from, y],
      [to, y],
    ],
    { widthMm: RULE.heavy },
  )

/** For date, version and page of a further page. */
const RUNNING_MM = 120

/** Of every further page: sheets of two versions must not get mixed. */
function drawRunningHead(pen: Pen, { title, notes }: PrintDocument, pages: Pages, ofAll: string): void {
  const { side, top } = MARGIN
  const right = pages.width - side
  pen.artifact(() => {
    const [words] = pen.lines([...notes, ofAll].join(', '), RUNNING_MM)
    pen.setLine(words, right, top - 1.5, 'right')
    pen.setLine(pen.lines([{ bold: title }], right - side - words.width - 6)[0], side, top - 1.5)
    rule(pen, side, right, top + HEAD.other - 3.4)
  })
}
