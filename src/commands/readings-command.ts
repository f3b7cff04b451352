import { writeFile } from 'node:fs/promises'
import {
  ASKED_FOR,
  applyEdits,
  goalFrom,
  gridSteps,
  movedSteps,
  type Reading,
  type ReadingsOutput,
  SETTLED_PATHS,
  type ShiftsById,
  shiftWords,
  solve,
  type Units,
} from '../readings'
import { assembleRig, keyOf, type RigAssets } from '../rig'
import { type Sitting, writeSitting } from '../sitting'
import { exposureOf, figureFiles, readingsOf, rigAssets, Stop, sceneFrom, sittingFrom, withKit } from './sitting-file'

const USAGE = `All readings of a sitting, without a browser.

  npm run --silent readings -- FILE [--json] [--paths N] [--feet] [--moved] [--kit FILE] [--grid] [--ask WORDS [--save FILE]]

  FILE       a sitting, *.json
  --json     records as JSON instead of a table
  --paths N  paths of bounced light at each place, 0 to 65536 (default ${SETTLED_PATHS}, as the page; 0: direct light only)
  --feet     lengths in feet and inches
  --moved    beside each number what it changes by if the key is 10 cm nearer or farther, the head turned 10°, the sitter
             10 cm taller
  --kit FILE  what the sitting has of a kit is copied anew from this one
  --grid     1000 meter places of the backdrop in the frame, direct light, in place of the readings
  --ask WORDS  solve for it: ${ASKED_FOR.map((words) => `"${words}"`).join(', ')}
  --save FILE  the sitting with the edits of the answer
`
const MOST_PATHS = 65536

interface Options {
  readonly file: string
  readonly json: boolean
  readonly grid: boolean
  readonly moved: boolean
  readonly paths: number
  readonly units: Units
  readonly ask: string | null
  readonly save: string | null
  readonly kit: string | null
}

function optionsFrom(args: readonly string[]): Options {
  let paths = SETTLED_PATHS
  const words: Record<'--ask' | '--save' | '--kit', string | null> = { '--ask': null, '--save': null, '--kit': null }
  const files: string[] = []
  const flags = new Set<string>()
  for (let i = 0; i < args.length; i++) {
    if (args[i] === '--paths') {
      paths = Number(args[++i])
      if (!Number.isInteger(paths) || paths < 0 || paths > MOST_PATHS)
        throw new Stop(
          2,
          `--paths: expected a whole number from 0 to ${MOST_PATHS}, got ${args[i] ?? 'nothing'}\n\n${USAGE}`,
        )
    } else if (args[i] in words) {
      const name = args[i] as keyof typeof words
      const value = args[++i]
      if (!value)
        throw new Stop(
          2,
          `${name}: expected ${name === '--ask' ? 'what to ask for' : 'a file'}, got nothing\n\n${USAGE}`,
        )
      words[name] = value
    } else if (args[i] === '--json' || args[i] === '--feet' || args[i] === '--grid' || args[i] === '--moved')
      flags.add(args[i])
    else if (args[i].startsWith('-')) throw new Stop(2, `${args[i]}: no such option\n\n${USAGE}`)
    else files.push(args[i])
  }
  if (files.length !== 1) throw new Stop(2, `expected one file, got ${files.length}\n\n${USAGE}`)
  if (words['--save'] !== null && words['--ask'] === null)
    throw new Stop(2, `--save: goes with --ask, whose edits it keeps\n\n${USAGE}`)
  return {
    file: files[0],
    json: flags.has('--json'),
    grid: flags.has('--grid'),
    moved: flags.has('--moved'),
    paths,
    units: flags.has('--feet') ? 'feet' : 'metres',
    ask: words['--ask'],
    save: words['--save'],
    kit: words['--kit'],
  }
}

const minus = (value: number): string => value.toFixed(2).replace('-', '−')

function table(
  sitting: Sitting,
  { readings, cautions, exposure, rays }: ReadingsOutput,
  offWords: (reading: Reading) => string | null,
): string {
  const band = ({ band: b }: Reading) => (b ? `±${b.plusMinus} ${b.unit} ${b.basis}` : '')
  const said = (r: Reading) => {
    const off = offWords(r)
    return off === null ? r.sentence : `${r.sentence} If the set is off: ${off}.`
  }
  const rows = readings.map((r) => [r.id, `${r.text}${r.unit ? ` ${r.unit}` : ''}`, band(r), said(r)])
  const width = [0, 1, 2].map((column) => Math.max(...rows.map((row) => row[column].length)))
  const lines = rows.map((row) =>
    row
      .map((cell, i) => (i < 3 ? cell.padEnd(width[i]) : cell))
      .join('  ')
      .trimEnd(),
  )
  const dials = Object.entries(exposure.perSourceStops).map(([id, stops]) => `${id} ${minus(stops)}`)
  return [
    sitting.title,
    '',
    ...lines,
    '',
    ...(cautions.length > 0 ? ['Cautions', ...cautions.map(({ sentence }) => `  ${sentence}`), ''] : []),
    `Re-exposed by ${minus(exposure.factorStops)} stops at f/${exposure.fNumber.toFixed(2)}; dials in stops: ${dials.join(', ') || 'none'}.`,
    `${rays} rays.`,
  ].join('\n')
}

/** The answer in words or as a record; its edits kept where a file is named. A goal that can't be had ends with 1. */
async function asked(sitting: Sitting, words: string, { json, paths, save }: Options): Promise<CommandResult> {
  const goal = goalFrom(words, sitting)
  if (typeof goal === 'string') throw new Stop(2, `--ask: ${goal}`)
  const assets = rigAssets(await figureFiles(sitting))
  const sceneOf = (tried: Sitting) => sceneFrom(tried, assets)
  const found = solve({ sitting, scene: sceneOf(sitting), again: sceneOf, paths }, goal)
  const { way, sentence, others } = found
  if (way && save !== null) await writeFile(save, writeSitting(applyEdits(sitting, way.edits)))
  const text = [sentence, ...others.map((other) => `  or: ${other.words}`)].join('\n')
  return { code: way ? 0 : 1, out: json ? JSON.stringify({ goal, ...found }, null, 2) : text, err: '' }
}

/** The places as records, or one sentence on all of them. */
async function gridOf(sitting: Sitting, { json, paths }: Options): Promise<CommandResult> {
  const assets = rigAssets(await figureFiles(sitting))
  const { factorStops } = exposureOf(sitting, assets, paths)
  const steps = gridSteps({ sitting, scene: sceneFrom(sitting, assets), factorStops })
  for (let step = steps.next(); ; step = steps.next())
    if (step.done) return { code: 0, out: json ? JSON.stringify(step.value) : step.value.sentence, err: '' }
}

function movedOf(sitting: Sitting, { exposure, indirect }: ReadingsOutput, assets: RigAssets): ShiftsById {
  const steps = movedSteps({ sitting, exposure, indirect, again: (moved) => sceneFrom(moved, assets) })
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value
}

export interface CommandResult {
  readonly code: 0 | 1 | 2
  readonly out: string
  readonly err: string
}

/** What the command prints and how it ends. Throws for faults of ours only. */
export async function readingsCommand(args: readonly string[]): Promise<CommandResult> {
  try {
    const options = optionsFrom(args)
    const { sitting, lines } = await withKit((await sittingFrom(options.file)).sitting, options.kit)
    if (options.ask !== null) return { ...(await asked(sitting, options.ask, options)), err: lines.join('\n') }
    if (options.grid) return { ...(await gridOf(sitting, options)), err: lines.join('\n') }
    const assets = rigAssets(await figureFiles(sitting))
    const output = readingsOf(sitting, assets, options)
    const { readings, cautions, exposure, rays } = output
    const moved = options.moved ? movedOf(sitting, output, assets) : null
    const records = { title: sitting.title, exposure, readings, cautions, rays, ...(moved && { moved }) }
    const letter = (moved && keyOf(assembleRig(sitting, assets))?.letter) ?? ''
    const offWords = (reading: Reading) => shiftWords(reading, moved?.[reading.id], letter, options.units)
    return {
      code: 0,
      out: options.json ? JSON.stringify(records, null, 2) : table(sitting, output, offWords),
      err: lines.join('\n'),
    }
  } catch (error) {
    if (error instanceof Stop) return { code: error.code, out: '', err: error.message }
    throw error
  }
}
