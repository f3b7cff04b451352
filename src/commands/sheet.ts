/**
 * npm run --silent sheet -- FILE --out S.pdf|S.html [--paper a4|letter] [--picture P.png | --no-picture] [--date YYYY-MM-DD] [--kit FILE]
 * The set-up sheet of a sitting. The picture of the expected result is drawn in a headless browser in grey, as `picture` does,
 * or taken from a file and made grey.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { greyed } from '../camera'
import { type RgbPicture, readPng, writePng } from '../exchange'
import { type PaperSize, type Picture, writeHtml, writePdf } from '../print'
import { takeSettledReadings } from '../readings'
import { setUpSheet, sheetDocument } from '../sheet'
import { writeSitting } from '../sitting'
import { sheetFonts } from './sheet-fonts'
import { figureFiles, rigAssets, Stop, sceneFrom, sittingFrom, withKit } from './sitting-file'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const USAGE =
  'npm run --silent sheet -- FILE --out S.pdf|S.html [--paper a4|letter] [--picture P.png | --no-picture] [--date YYYY-MM-DD] [--kit FILE]'
/** Of the picture on the sheet: 31 mm at 300 dots an inch. */
const PICTURE_WIDTH = 384
const PICTURE_SAMPLES = 128

function options() {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      out: { type: 'string' },
      paper: { type: 'string', default: 'a4' },
      picture: { type: 'string' },
      'no-picture': { type: 'boolean', default: false },
      date: { type: 'string' },
      kit: { type: 'string' },
    },
  })
  const [file] = positionals
  if (!file || positionals.length > 1 || !values.out || !/\.(pdf|html)$/i.test(values.out))
    throw new Stop(2, `Usage: ${USAGE}`)
  return {
    file,
    out: values.out,
    paper: paperNamed(values.paper),
    picture: values.picture ?? null,
    draws: !values['no-picture'],
    madeAt: values.date === undefined ? new Date() : dayNamed(values.date),
    kit: values.kit ?? null,
  }
}

function paperNamed(text: string): PaperSize {
  if (text === 'a4' || text === 'letter') return text
  throw new Stop(2, `--paper: expected a4 or letter, got ${text}`)
}

function dayNamed(text: string): Date {
  const at = new Date(`${text}T00:00:00Z`)
  if (/^\d{4}-\d{2}-\d{2}$/.test(text) && Number.isFinite(at.getTime())) return at
  throw new Stop(2, `--date: expected a day as 2026-11-25, got ${text}`)
}

/** In grey, as all of the sheet is. */
function pictureOf({ width, height, rgb }: RgbPicture, alt: string): Picture {
  return { bytes: writePng({ width, height, rgb: greyed(rgb) }), type: 'png', widthPx: width, heightPx: height, alt }
}

function pixelsOf(file: string): RgbPicture {
  try {
    return readPng(new Uint8Array(readFileSync(file)))
  } catch (error) {
    const why = error instanceof Error ? error.message.replace(/^exchange\.\w+: /, '') : String(error)
    throw new Stop(2, `--picture: expected a PNG, got ${file}: ${why}. Make one with npm run picture`)
  }
}

/** By the very command that anybody can run, into a file of its own. */
function drawPicture(sittingText: string, alt: string): Picture {
  const folder = mkdtempSync(join(tmpdir(), 'sheet-'))
  try {
    const [from, to] = [join(folder, 'of.sitting.json'), join(folder, 'picture.png')]
    writeFileSync(from, sittingText)
    const command = [join(ROOT, 'node_modules', 'tsx', 'dist', 'cli.mjs'), join(ROOT, 'src', 'commands', 'picture.ts')]
    const how = ['--width', `${PICTURE_WIDTH}`, '--samples', `${PICTURE_SAMPLES}`, '--grey']
    execFileSync(process.execPath, [...command, from, '--out', to, ...how], {
      cwd: ROOT,
      stdio: ['ignore', 'ignore', 'pipe'],
    })
    return pictureOf(pixelsOf(to), alt)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function main(): Promise<void> {
  const { file, out, paper, picture, draws, madeAt, kit } = options()
  // Before the light is read, which takes a while.
  const own = picture === null ? null : pixelsOf(picture)
  const { sitting, lines } = await withKit((await sittingFrom(file)).sitting, kit)
  for (const line of lines) console.error(line)
  const scene = sceneFrom(sitting, rigAssets(await figureFiles(sitting)))
  const read = takeSettledReadings({ sitting, ...scene })
  const input = { sitting, rig: scene.rig, ...read }
  const sheet = setUpSheet(input)
  const alt = `Expected picture: ${sheet.look}`
  const shown = own ? pictureOf(own, alt) : draws ? drawn(writeSitting(sitting), alt) : null
  const document = sheetDocument(input, sheet, { paper, madeAt, picture: shown })
  writeFileSync(out, /\.html$/i.test(out) ? writeHtml(document) : await writePdf(document, paper, await sheetFonts()))
  console.log(`${out}: set-up sheet of ${sitting.title}, version ${sheet.version}${shown ? '' : ', without a picture'}`)
}

/** A sheet without its picture is a sheet all the same: what was missing is told. */
function drawn(sittingText: string, alt: string): Picture | null {
  try {
    return drawPicture(sittingText, alt)
  } catch (error) {
    const told =
      (error as { stderr?: Buffer }).stderr?.toString().trim() ||
      (error instanceof Error ? error.message : String(error))
    console.error(`No picture: ${told} The sheet has none; --no-picture leaves it out without a word.`)
    return null
  }
}

main().catch((error: unknown) => {
  console.error(error instanceof Stop ? error.message : error)
  process.exitCode = error instanceof Stop ? error.code : 1
})
