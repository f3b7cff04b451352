import { LINE, RULE } from './layout'
import type { Pen } from './pen'
import { drawScaleBar, drawToScale, SCALE_ROW, sizeOnPaper } from './scale-drawing'
import { columnsOf, drawLines, setRow } from './table'
import type { Block, Picture } from './types'

/** What stays together on the paper, as tall as it is at that width; drawn under an element of the structure. */
export interface Atom {
  height(width: number): number
  draw(parent: PDFKit.PDFStructureElement, x: number, y: number, width: number): void
}

const AFTER_WORDS = 0.6
const AFTER_TABLE = 0.8

/** A block as what may be parted between columns. */
export function atomsOf(pen: Pen, block: Block): readonly Atom[] {
  switch (block.kind) {
    case 'words':
      return [
        {
          height: (width) => pen.lines(block.words, width).length * LINE + AFTER_WORDS,
          draw: (parent, x, y, width) =>
            pen.tagged(parent, 'P', () => drawLines(pen, pen.lines(block.words, width), x, y)),
        },
      ]
    case 'table':
      return tableAtoms(pen, block)
    case 'drawing':
      return [drawingAtom(pen, block)]
    case 'picture':
      return [pictureAtom(pen, block.picture, block.widthMm)]
    case 'beside':
      return [besideAtom(pen, block)]
  }
}

function tableAtoms(pen: Pen, table: Extract<Block, { kind: 'table' }>): readonly Atom[] {
  const columns = lastly((width) => columnsOf(pen, table, width))
  const heads = table.columns.map(({ head }) => head ?? '')
  const hasHead = heads.some((head) => head !== '')
  let element: PDFKit.PDFStructureElement | null = null
  const structure = (parent: PDFKit.PDFStructureElement): PDFKit.PDFStructureElement => {
    if (!element) {
      element = pen.doc.struct('Table', { alt: table.named })
      parent.add(element)
    }
    return element
  }
  const head = (width: number) =>
    setRow(
      pen,
      table,
      heads.map((text) => (text === '' ? '' : [{ bold: text }])),
      columns(width),
      true,
    )
  return table.rows.map((row, i): Atom => {
    const set = lastly((width: number) => setRow(pen, table, row, columns(width), false))
    const withHead = hasHead && i === 0
    const after = i === table.rows.length - 1 ? AFTER_TABLE : 0
    return {
      height: (width) => (withHead ? head(width).height : 0) + set(width).height + after,
      draw: (parent, x, y, width) => {
        const into = structure(parent)
        const top = withHead ? head(width).height : 0
        if (withHead) head(width).draw(into, x, y)
        set(width).draw(into, x, y + top)
      },
    }
  })
}

function drawingAtom(pen: Pen, { drawing, scale, caption, bar }: Extract<Block, { kind: 'drawing' }>): Atom {
  const size = sizeOnPaper(drawing, scale)
  const top = bar ? SCALE_ROW : 0
  return {
    height: () => top + size.height + 1,
    draw: (parent, x, y) => {
      figure(pen, parent, drawing.description, () => {
        if (bar) drawScaleBar(pen, scale, caption, x, y)
        drawToScale(pen, drawing, scale, x, y + top)
      })
    },
  }
}

function pictureAtom(pen: Pen, picture: Picture, widthMm: number): Atom {
  const height = (widthMm * picture.heightPx) / picture.widthPx
  return {
    height: () => height + 1.4,
    draw: (parent, x, y) => {
      figure(pen, parent, picture.alt, () => {
        pen.image(picture.bytes, x, y + 0.6, widthMm, height)
        const right = x + widthMm
        const low = y + 0.6 + height
        pen.line(
          [
            [x, y + 0.6],
            [right, y + 0.6],
            [right, low],
            [x, low],
          ],
          { widthMm: RULE.thin, closed: true },
        )
      })
    },
  }
}

function besideAtom(pen: Pen, { left, leftMm, right }: Extract<Block, { kind: 'beside' }>): Atom {
  const lefts = atomsOf(pen, left)
  const rights = atomsOf(pen, right)
  const rest = (width: number) => width - leftMm - 3
  const tall = (atoms: readonly Atom[], width: number) => atoms.reduce((sum, atom) => sum + atom.height(width), 0)
  return {
    height: (width) => Math.max(tall(lefts, leftMm), tall(rights, rest(width))),
    draw: (parent, x, y, width) => {
      stack(lefts, parent, x, y, leftMm)
      stack(rights, parent, x + leftMm + 3, y, rest(width))
    },
  }
}

/** One under the other. Gives back where the next would stand. */
export function stack(
  atoms: readonly Atom[],
  parent: PDFKit.PDFStructureElement,
  x: number,
  y: number,
  width: number,
): number {
  return atoms.reduce((at, atom) => {
    atom.draw(parent, x, at, width)
    return at + atom.height(width)
  }, y)
}

function figure(pen: Pen, parent: PDFKit.PDFStructureElement, alt: string, draw: () => void): void {
  const element = pen.doc.struct('Figure', { alt })
  parent.add(element)
  const mark = pen.doc.markStructureContent('Figure', { alt })
  draw()
  pen.doc.endMarkedContent()
  element.add(mark)
  element.end()
}

/** The last answer is kept: a width is asked for many times before another. */
function lastly<T>(of: (width: number) => T): (width: number) => T {
  let known: { readonly width: number; readonly value: T } | null = null
  return (width) => {
    if (known?.width !== width) known = { width, value: of(width) }
    return known.value
  }
}
