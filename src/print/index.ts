/**
 * print: a document as plain values (words, tables, drawings to scale, pictures) in; a PDF as bytes, or one HTML file as
 * text, out. Millimetres of paper. Fonts come in as bytes and the moment as a Date.
 */
import type { Fonts, PaperSize, PrintDocument } from './types'

export { writeHtml } from './html'
export { columnWidth, leadRoom } from './layout'
export { SCALE_ROW, SCALES, sizeOnPaper } from './scale-drawing'
export * from './types'

/** A document as a PDF (pdf.ts); its writer brings a large library along, so it is loaded when the first one is written. */
export const writePdf = async (printed: PrintDocument, paper: PaperSize, fonts: Fonts): Promise<Uint8Array> =>
  (await import('./pdf')).writePdf(printed, paper, fonts)
