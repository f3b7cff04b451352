import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { Fonts } from '../print'

const SCRIPTS = ['latin', 'latin-ext', 'greek', 'cyrillic']
const require = createRequire(import.meta.url)

/** The static fonts of the printed sheet, from the installed package (SIL Open Font License 1.1). */
export async function sheetFonts(): Promise<Fonts> {
  const weight = (of: 400 | 600) =>
    Promise.all(
      SCRIPTS.map(async (script) => {
        const path = require.resolve(`@fontsource/source-sans-3/files/source-sans-3-${script}-${of}-normal.woff`)
        return new Uint8Array(await readFile(path))
      }),
    )
  return { regular: await weight(400), bold: await weight(600) }
}
