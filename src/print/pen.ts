import PDFDocument from 'pdfkit'
import { MM_PER_PT, SHEETS, TEXT_PT } from './layout'
import { lineWords } from './line-words'
import { type Fonts, type PaperSize, runsOf, type Words } from './types'

const PT = 1 / MM_PER_PT
/** Figures of one width, so that columns stand under one another. */
const FEATURES: PDFKit.Mixins.OpenTypeFeatures[] = ['tnum', 'lnum', 'kern']
/** Base line below the top of a line of text, as a share of the size. */
const ASCENT = 0.95

interface Piece {
  readonly text: string
  readonly font: string
}

/** One line of text as it will stand. */
export interface SetLine {
  readonly pieces: readonly Piece[]
  readonly width: number
}

interface Outlined {
  readonly layout: (text: string) => {
    readonly glyphs: readonly { readonly path: { toSVG(): string } }[]
    readonly positions: readonly { readonly xAdvance: number; readonly xOffset: number; readonly yOffset: number }[]
  }
  hasGlyphForCodePoint(code: number): boolean
  readonly unitsPerEm: number
}

export interface LineLook {
  readonly widthMm: number
  readonly dashMm?: readonly number[]
  readonly closed?: boolean
  readonly fill?: 'white' | 'grey' | 'black'
}

/** pdfkit in millimetres from the top left corner, black on white, in one family of fonts; text by its base line. */
export class Pen {
  readonly doc: PDFKit.PDFDocument
  private readonly outlines = new Map<string, Outlined>()
  private readonly widths = new Map<string, number>()
  private readonly whole: Promise<Uint8Array>

  constructor(
    paper: PaperSize,
    fonts: Fonts,
    { title, madeAt, language }: { readonly title: string; readonly madeAt: Date; readonly language: string },
  ) {
    const { width, height } = SHEETS[paper]
    this.doc = new PDFDocument({
      size: [width * PT, height * PT],
      margin: 0,
      autoFirstPage: false,
      // None of the fonts that every reader has: ours are embedded.
      font: '',
      pdfVersion: '1.7',
      tagged: true,
      displayTitle: true,
      lang: language,
      info: { Title: title, Creator: 'Halfshade', Producer: 'Halfshade', CreationDate: madeAt, ModDate: madeAt },
    })
    const chunks: Uint8Array[] = []
    this.whole = new Promise((resolve, reject) => {
      this.doc.on('data', (chunk: Uint8Array) => chunks.push(chunk))
      this.doc.on('end', () => resolve(joined(chunks)))
      this.doc.on('error', reject)
    })
    for (const weight of ['regular', 'bold'] as const)
      fonts[weight].forEach((bytes, i) => {
        this.doc.registerFont(`${weight}${i}`, bytes as unknown as Buffer)
        this.doc.font(`${weight}${i}`)
        this.outlines.set(`${weight}${i}`, (this.doc as unknown as { _font: { font: Outlined } })._font.font)
      })
  }

  async done(): Promise<Uint8Array> {
    this.doc.end()
    return this.whole
  }

  /** Draws what has no place in the reading order: rules, hatches, the words of running heads. */
  artifact(draw: () => void): void {
    this.doc.markContent('Artifact', { type: 'Layout' })
    draw()
    this.doc.endMarkedContent()
  }

  /** Draws what belongs to an element of the document's structure. */
  tagged(parent: PDFKit.PDFStructureElement, type: string, draw: () => void): void {
    const element = this.doc.struct(type)
    parent.add(element)
    const mark = this.doc.markStructureContent(type)
    draw()
    this.doc.endMarkedContent()
    element.add(mark)
    element.end()
  }

  line(points: readonly (readonly [number, number])[], look: LineLook): void {
    if (points.length < 2) return
    const { doc } = this
    points.forEach(([x, y], i) => {
      if (i === 0) doc.moveTo(x * PT, y * PT)
      else doc.lineTo(x * PT, y * PT)
    })
    if (look.closed) doc.closePath()
    this.paint(look)
  }

  circle(x: number, y: number, radius: number, look: LineLook): void {
    this.doc.circle(x * PT, y * PT, radius * PT)
    this.paint(look)
  }

  private paint({ widthMm, dashMm = [], fill }: LineLook): void {
    const { doc } = this
    doc
      .lineWidth(widthMm * PT)
      .lineJoin('round')
      .lineCap('butt')
    if (dashMm.length > 0) doc.dash(dashMm[0] * PT, { space: dashMm[1] * PT, phase: 0 })
    if (dashMm.length > 2)
      (doc as unknown as { addContent(text: string): void }).addContent(
        `[${dashMm.map((mm) => (mm * PT).toFixed(3)).join(' ')}] 0 d`,
      )
    const tone = { white: '#ffffff', grey: '#dddddd', black: '#000000' }
    if (widthMm === 0) doc.fill(tone[fill ?? 'black'])
    else if (fill) doc.fillAndStroke(tone[fill], '#000000')
    else doc.stroke('#000000')
    if (dashMm.length > 0) doc.undash()
  }

  clipped(x: number, y: number, width: number, height: number, draw: () => void): void {
    this.doc.save()
    this.doc.rect(x * PT, y * PT, width * PT, height * PT).clip()
    draw()
    this.doc.restore()
  }

  image(bytes: Uint8Array, x: number, y: number, width: number, height: number): void {
    this.doc.image(bytes as unknown as Buffer, x * PT, y * PT, { width: width * PT, height: height * PT })
  }

  /** Words as they fall on lines of at most so many mm, and where the words themselves end one. A word longer than that is broken where it must be. */
  lines(words: Words, width: number, sizePt = TEXT_PT): readonly SetLine[] {
    const lines: SetLine[] = []
    let line: Piece[] = []
    let used = 0
    const end = () => {
      lines.push({ pieces: line, width: used })
      line = []
      used = 0
    }
    for (const { text, isBold, ends } of lineWords(words)) {
      for (const part of this.fitting(text, isBold, width, sizePt)) {
        const pieces = this.pieces(part, isBold)
        const wide = this.widthOf(pieces, sizePt)
        const bare = this.widthOf(this.pieces(part.trimEnd(), isBold), sizePt)
        if (line.length > 0 && used + bare > width + 1e-6) end()
        line.push(...pieces)
        used += wide
      }
      if (ends) end()
    }
    end()
    return lines
  }

  /** A text in pieces that are no wider than the line. */
  private fitting(text: string, isBold: boolean, width: number, sizePt: number): readonly string[] {
    if (this.widthOf(this.pieces(text.trimEnd(), isBold), sizePt) <= width) return [text]
    const parts: string[] = []
    let part = ''
    for (const letter of text) {
      if (part !== '' && this.widthOf(this.pieces(part + letter, isBold), sizePt) > width) {
        parts.push(part)
        part = ''
      }
      part += letter
    }
    return [...parts, part]
  }

  /** Of words on lines as long as they like, mm. */
  width(words: Words, sizePt = TEXT_PT): number {
    return Math.max(...this.lines(words, Number.POSITIVE_INFINITY, sizePt).map(({ width }) => width))
  }

  /** A line with its top left corner, or its top right one. */
  setLine({ pieces, width }: SetLine, x: number, y: number, align: 'left' | 'right' = 'left', sizePt = TEXT_PT): void {
    this.pieced(pieces, align === 'left' ? x : x - width, y + ASCENT * sizePt * MM_PER_PT, sizePt)
  }

  /** One line of words by its base line, turned clockwise about that point; a halo hides the lines that it crosses. */
  label(
    words: Words,
    at: readonly [number, number],
    how: { readonly anchor: 'start' | 'middle' | 'end'; readonly angleDeg: number; readonly sizePt: number },
  ): void {
    const pieces = runsOf(words).flatMap((run) =>
      typeof run === 'string' ? this.pieces(run, false) : this.pieces(run.bold, true),
    )
    const width = this.widthOf(pieces, how.sizePt)
    const back = how.anchor === 'start' ? 0 : how.anchor === 'middle' ? width / 2 : width
    this.doc.save()
    if (how.angleDeg !== 0) this.doc.rotate(how.angleDeg, { origin: [at[0] * PT, at[1] * PT] })
    this.halo(pieces, at[0] - back, at[1], how.sizePt)
    this.pieced(pieces, at[0] - back, at[1], how.sizePt)
    this.doc.restore()
  }

  private pieced(pieces: readonly Piece[], x: number, baseline: number, sizePt: number): void {
    let at = x
    for (const piece of pieces) {
      this.doc
        .font(piece.font)
        .fontSize(sizePt)
        .fillColor('#000000')
        .text(piece.text, at * PT, baseline * PT, { lineBreak: false, baseline: 'alphabetic', features: FEATURES })
      at += this.widthOf([piece], sizePt)
    }
  }

  private halo(pieces: readonly Piece[], x: number, baseline: number, sizePt: number): void {
    const { doc } = this
    let at = x * PT
    for (const { text, font } of pieces) {
      const outlined = this.outlines.get(font)!
      const scale = sizePt / outlined.unitsPerEm
      const { glyphs, positions } = outlined.layout(text)
      glyphs.forEach((glyph, i) => {
        const path = glyph.path.toSVG()
        if (path !== '') {
          doc
            .save()
            .translate(at, baseline * PT)
            .scale(scale, -scale)
          doc
            .path(path)
            .lineWidth((1.2 * PT) / scale)
            .lineJoin('round')
            .stroke('#ffffff')
          doc.restore()
        }
        at += positions[i].xAdvance * scale
      })
    }
  }

  private widthOf(pieces: readonly Piece[], sizePt: number): number {
    return pieces.reduce((sum, { text, font }) => {
      const key = `${font}\n${text}`
      const known = this.widths.get(key)
      if (known !== undefined) return sum + known * sizePt
      this.doc.font(font).fontSize(100)
      const share = (this.doc.widthOfString(text, { features: FEATURES }) * MM_PER_PT) / 100
      this.widths.set(key, share)
      return sum + share * sizePt
    }, 0)
  }

  /** A text cut where another font must set the next letter: the first of the family that has it, else the first. */
  private pieces(text: string, isBold: boolean): readonly Piece[] {
    const weight = isBold ? 'bold' : 'regular'
    const pieces: { text: string; font: string }[] = []
    for (const letter of text) {
      const has = [...this.outlines].find(
        ([name, font]) => name.startsWith(weight) && font.hasGlyphForCodePoint(letter.codePointAt(0)!),
      )
      const font = has ? has[0] : `${weight}0`
      const last = pieces.at(-1)
      if (last?.font === font) last.text += letter
      else pieces.push({ text: letter, font })
    }
    return pieces
  }
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const chunk of chunks) {
    whole.set(chunk, at)
    at += chunk.length
  }
  return whole
}
