/**
 * print: a document as plain values (words, tables, drawings to scale, pictures) in; a PDF as bytes, or one HTML file as
 * text, out. Millimetres of paper. Fonts come in as bytes and the moment as a Date. Loaded only when something is printed.
 */
export { writeHtml } from './html'
export { columnWidth, leadRoom } from './layout'
export { writePdf } from './pdf'
export { SCALE_ROW, SCALES, sizeOnPaper } from './scale-drawing'
export * from './types'
