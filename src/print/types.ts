import type { Drawing } from '../paper'

/** A printed document as plain values: what it says and in which order, not where. PDF and HTML are both made from it. */
export interface PrintDocument {
  readonly title: string
  /** One sentence under the title. */
  readonly subtitle: string
  /** At the right of the heading, above the page number: date, version. */
  readonly notes: readonly string[]
  /** For the file's own record: the same document and moment always give the same bytes. */
  readonly madeAt: Date
  /** In the wide column of the first page; empty: the first page has two even columns like the others. */
  readonly lead: readonly Block[]
  /** Beside the lead, then through two columns a page. */
  readonly sections: readonly Section[]
  /** Under the first page, the whole width. */
  readonly foot: Words
}

export interface Section {
  readonly title: string
  readonly blocks: readonly Block[]
  /** Begins a page of its own. */
  readonly onNewPage?: boolean
}

export type Run = string | { readonly bold: string }
/** A line ends at '\\n'. */
export type Words = string | readonly Run[]

/** Words, or something to be filled in by hand: a box to tick, a line to write on. */
export type Cell = Words | { readonly empty: 'tick' | 'line' }

export interface Column {
  readonly head?: string
  readonly align?: 'left' | 'right'
  /** Not narrower than this, mm: so that tables one under the other have one edge. */
  readonly leastMm?: number
}

export type Block =
  | { readonly kind: 'words'; readonly words: Words }
  /** The last column but those to be filled in wraps; the others are as wide as what they hold. */
  | {
      readonly kind: 'table'
      /** What it tells, for a screen reader. */
      readonly named: string
      readonly columns: readonly Column[]
      readonly rows: readonly (readonly Cell[])[]
      /** Which column takes what is left over and wraps; left out: none. */
      readonly wraps?: number
    }
  /** bar: with its caption, its scale and a bar in metres over it. */
  | {
      readonly kind: 'drawing'
      readonly drawing: Drawing
      readonly scale: number
      readonly caption: string
      readonly bar: boolean
    }
  | { readonly kind: 'picture'; readonly picture: Picture; readonly widthMm: number }
  | { readonly kind: 'beside'; readonly left: Block; readonly leftMm: number; readonly right: Block }

export interface Picture {
  readonly bytes: Uint8Array
  readonly type: 'png' | 'jpeg'
  readonly widthPx: number
  readonly heightPx: number
  /** What it shows, for a screen reader. */
  readonly alt: string
}

/** Files of one family that hold letters of different scripts: the first that has a letter sets it. TrueType, in WOFF. */
export interface Fonts {
  readonly regular: readonly Uint8Array[]
  readonly bold: readonly Uint8Array[]
}

export type PaperSize = 'a4' | 'letter'

export const bold = (text: string): Run => ({ bold: text })
export const runsOf = (words: Words): readonly Run[] => (typeof words === 'string' ? [words] : words)
export const plain = (words: Words): string =>
  runsOf(words)
    .map((run) => (typeof run === 'string' ? run : run.bold))
    .join('')
