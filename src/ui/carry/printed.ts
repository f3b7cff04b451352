import regularCyrillic from '@fontsource/source-sans-3/files/source-sans-3-cyrillic-400-normal.woff?url'
import boldCyrillic from '@fontsource/source-sans-3/files/source-sans-3-cyrillic-600-normal.woff?url'
import regularGreek from '@fontsource/source-sans-3/files/source-sans-3-greek-400-normal.woff?url'
import boldGreek from '@fontsource/source-sans-3/files/source-sans-3-greek-600-normal.woff?url'
import regularLatin from '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?url'
import boldLatin from '@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff?url'
import regularLatinExt from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff?url'
import boldLatinExt from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-600-normal.woff?url'
import { writePng } from '../../exchange'
import { type Fonts, type PaperSize, type Picture, writeHtml, writePdf } from '../../print'
import { type SetUpSheet, type SheetInput, setUpSheet, sheetDocument } from '../../sheet'
import { useDerived } from '../derived'
import { fileStem, giveFile } from '../give-file'
import { useSitting } from '../store'
import { fetchAsset } from '../wardrobe'
import { pixelsOf, presentPicture, roughWords } from './present-picture'

const REGULAR = [regularLatin, regularLatinExt, regularGreek, regularCyrillic]
const BOLD = [boldLatin, boldLatinExt, boldGreek, boldCyrillic]
/** 31 mm at 300 dots an inch. */
const PICTURE_WIDTH = 384

let fonts: Promise<Fonts> | null = null

/** The static fonts of what is printed; a failed load is tried again the next time. */
export function printFonts(): Promise<Fonts> {
  const all = (urls: readonly string[]) => Promise.all(urls.map(fetchAsset))
  fonts ??= Promise.all([all(REGULAR), all(BOLD)]).then(([regular, bold]) => ({ regular, bold }))
  fonts.catch(() => {
    fonts = null
  })
  return fonts
}

/** What the sheet is made from; null while the set is still being read. */
export function useSheetInput(): SheetInput | null {
  const sitting = useSitting()
  const rig = useDerived((derived) => derived.rig)
  const read = useDerived((derived) => derived.read)
  return rig && read?.settled && read.of === sitting ? { sitting, rig, ...read } : null
}

function sheetPicture({ look }: SetUpSheet): Picture | null {
  const canvas = presentPicture()
  if (!canvas) return null
  const pixels = pixelsOf(canvas, PICTURE_WIDTH, true)
  return {
    bytes: writePng(pixels),
    type: 'png',
    widthPx: pixels.width,
    heightPx: pixels.height,
    alt: `Expected picture: ${look}`,
  }
}

/** Writes the sheet to the person's disk. Gives back what to say of it. */
export async function giveSheet(input: SheetInput, paper: PaperSize, kind: 'pdf' | 'html'): Promise<string> {
  const sheet = setUpSheet(input)
  const picture = sheetPicture(sheet)
  const rough = picture && roughWords()
  const document = sheetDocument(input, sheet, { paper, madeAt: new Date(), picture, pictureNote: rough })
  const name = `${fileStem(sheet.title)}.sheet.${kind}`
  if (kind === 'html') giveFile(name, writeHtml(document), 'text/html')
  else giveFile(name, await writePdf(document, paper, await printFonts()), 'application/pdf')
  if (!picture) return `${name} is written, without a picture: none is drawn yet.`
  return rough
    ? `${name} is written, and says that its picture is ${rough}. For a better one close this page, wait until the picture is finished, and write it again.`
    : `${name} is written.`
}
