/**
 * sheet: the page carried to the studio. In: a sitting, its rig and its readings. Out: what the sheet says as plain values
 * (metres, degrees, f-numbers), and as a document to be printed. Pure: the moment and the picture come in.
 */

export { asBuilt, differs, type Measured, spotOf, whatToChange } from './as-built'
export { type SheetPaper, sheetDocument } from './document'
export * from './set-up-sheet'
export { spotFrom, stands, tapeRows } from './tape'
export * from './types'
