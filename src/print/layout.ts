import type { PaperSize } from './types'

/** Millimetres of paper. Laser printers leave 4 to 6 mm at the edges white: common practice, no source. */
export const SHEETS: Readonly<Record<PaperSize, { readonly width: number; readonly height: number }>> = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
}
export const MARGIN = { side: 11, top: 8, bottom: 6 }
export const GAP = 4
/** Beside the lead. */
const NARROW = 66

/** 11 pt is the least that is read at arm's length. */
export const TEXT_PT = 11
export const TITLE_PT = 22
export const MM_PER_PT = 25.4 / 72
/** Height of a line of text, mm. */
export const LINE = 1.24 * TEXT_PT * MM_PER_PT
/** White before the rule of a section, and from the rule to its words. */
export const SECTION = { before: 2.2, rule: 1.4, after: 0.3 }
export const RULE = { heavy: 0.7, thin: 0.35 }
/** From the rule over the foot to its words, mm. */
export const FOOT_RULE = 1.4
/** Heading of the first page, and of the others. */
export const HEAD = { first: 17.5, other: 8 }

export interface Frame {
  readonly page: number
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Pages {
  readonly width: number
  readonly height: number
  /** The wide column of the first page. */
  readonly lead: Frame
  /** Frames that the sections flow through, in order, without an end. */
  frame(index: number): Frame
  /** Where a foot of that height stands. */
  readonly foot: Frame
}

/** The frames of a document, whose first page has a lead or not, a foot so high and so many lines under its title. */
export function pagesOf(paper: PaperSize, hasLead: boolean, footHeight: number, subtitleLines = 1): Pages {
  const { width, height } = SHEETS[paper]
  const inner = width - 2 * MARGIN.side
  const even = (inner - GAP) / 2
  const side = hasLead ? NARROW : even
  const foot = {
    page: 0,
    x: MARGIN.side,
    y: height - MARGIN.bottom - footHeight,
    width: inner,
    height: footHeight,
  }
  const top = MARGIN.top + HEAD.first + (Math.max(1, subtitleLines) - 1) * LINE
  const first = (x: number, columnWidth: number): Frame => ({
    page: 0,
    x,
    y: top,
    width: columnWidth,
    height: foot.y - 2 - top,
  })
  const lead = first(MARGIN.side, inner - GAP - side)
  const beside = first(width - MARGIN.side - side, side)
  const firstPage = hasLead ? [beside] : [lead, beside]
  const later = (index: number): Frame => ({
    page: 1 + Math.floor(index / 2),
    x: MARGIN.side + (index % 2) * (even + GAP),
    y: MARGIN.top + HEAD.other,
    width: even,
    height: height - MARGIN.bottom - MARGIN.top - HEAD.other,
  })
  return {
    width,
    height,
    lead,
    foot,
    frame: (index) => firstPage[index] ?? later(index - firstPage.length),
  }
}

/** Lines under the title, at most. */
export const MOST_SUBTITLE_LINES = 3
/** No text is wider than so much a letter on the average, as a share of its size. */
const WIDEST_LETTER = 0.53

/** Lines that a subtitle takes at most, before its letters are measured. */
function subtitleLinesAtMost(paper: PaperSize, subtitle: string): number {
  const letters = (SHEETS[paper].width - 2 * MARGIN.side) / (WIDEST_LETTER * TEXT_PT * MM_PER_PT)
  return Math.min(MOST_SUBTITLE_LINES, Math.ceil(subtitle.length / letters))
}

/** The part of the paper that a lead may fill under that subtitle and over a foot of so many lines, mm: for choosing the scale of what is drawn. */
export function leadRoom(
  paper: PaperSize,
  footLines: number,
  subtitle: string,
): { readonly width: number; readonly height: number } {
  const lines = subtitleLinesAtMost(paper, subtitle)
  const { width, height } = pagesOf(paper, true, FOOT_RULE + footLines * LINE, lines).lead
  return { width, height }
}

/** Of a column of the pages after the first, mm. */
export const columnWidth = (paper: PaperSize): number => pagesOf(paper, true, 0).frame(1).width
