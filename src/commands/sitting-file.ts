import { readFile } from 'node:fs/promises'
import { missingParts, readFigureAsset, readWardrobe, WORN_FILES, type WornName } from '../figure'
import { readKit, updateFromKit } from '../kit'
import { bodiesOf } from '../meter'
import { createRayCaster } from '../rays'
import {
  type Exposure,
  type ReadingsOutput,
  type SolveScene,
  takeSettledExposure,
  takeSettledReadings,
  type Units,
} from '../readings'
import { assembleRig, type RigAssets, shapeFault, wearOf } from '../rig'
import { problemSentence, readSitting, type Sitting } from '../sitting'

const ASSETS = new URL('../../assets/', import.meta.url)

/** 1: the file is no sitting. 2: called wrongly, or the file cannot be opened. */
export class Stop extends Error {
  constructor(
    readonly code: 1 | 2,
    message: string,
  ) {
    super(message)
  }
}

async function textFrom(file: string): Promise<string> {
  try {
    return await readFile(file, 'utf8')
  } catch (error) {
    throw new Stop(2, `${file}: cannot be opened (${error instanceof Error ? error.message : String(error)})`)
  }
}

/** A sitting with the copies of a kit's entries made anew from its file, and a line on each. Throws Stop as sittingFrom does. */
export async function withKit(
  sitting: Sitting,
  file: string | null,
): Promise<{ readonly sitting: Sitting; readonly lines: readonly string[] }> {
  if (file === null) return { sitting, lines: [] }
  const result = readKit(await textFrom(file))
  if ('problems' in result)
    throw new Stop(1, result.problems.map((problem) => `${file}: ${problemSentence(problem)}`).join('\n'))
  const { sitting: updated, from, missing, refused } = updateFromKit(sitting, result.kit)
  const none = from.length + missing.length + refused.length === 0 ? [`No source of this sitting is of a kit.`] : []
  return {
    sitting: updated,
    lines: [
      ...from.map((line) => `From ${file}, ${line}.`),
      ...missing.map((line) => `Not in ${file}, ${line}.`),
      ...refused.map((line) => `Not taken from ${file}, ${line}`),
      ...none,
    ],
  }
}

/** The text of a file and the sitting in it. Throws Stop with the file, the place, what was expected and what to do. */
export async function sittingFrom(file: string): Promise<{ readonly text: string; readonly sitting: Sitting }> {
  const text = await textFrom(file)
  const result = readSitting(text)
  if ('problems' in result)
    throw new Stop(1, result.problems.map((problem) => `${file}: ${problemSentence(problem)}`).join('\n'))
  return { text, sitting: result.sitting }
}

const assetBytes = async (file: string): Promise<Uint8Array> => new Uint8Array(await readFile(new URL(file, ASSETS)))

/** Files of the first sitter, and of what the sitters of a sitting wear. */
export interface FigureFiles {
  readonly figure: Uint8Array
  readonly worn: Partial<Record<WornName, Uint8Array>>
}

export async function figureFiles({ sitters }: Pick<Sitting, 'sitters'>): Promise<FigureFiles> {
  const names = missingParts(sitters.map(wearOf), {})
  const worn = await Promise.all(names.map(async (name) => [name, await assetBytes(WORN_FILES[name])] as const))
  return { figure: await assetBytes('sitter.glb'), worn: Object.fromEntries(worn) }
}

export const rigAssets = ({ figure, worn }: FigureFiles): RigAssets => ({
  figure: readFigureAsset(figure),
  wardrobe: readWardrobe(worn),
})

/** What readings look at. Throws Stop for a shape that no sitter can have. */
export function sceneFrom(sitting: Sitting, assets: RigAssets): SolveScene {
  const fault = shapeFault(sitting, assets.figure)
  if (fault) throw new Stop(1, problemSentence(fault))
  const rig = assembleRig(sitting, assets)
  const bodies = bodiesOf(rig)
  return { rig, bodies, caster: createRayCaster(bodies.bodies) }
}

/** paths: of bounced light at each place; left out: as many as the page traces. */
export const readingsOf = (
  sitting: Sitting,
  assets: RigAssets,
  { paths, units = 'metres' }: { readonly paths?: number; readonly units?: Units } = {},
): ReadingsOutput => takeSettledReadings({ sitting, ...sceneFrom(sitting, assets), units }, paths)

/** What re-exposure does to its powers; paths as in readingsOf. */
export const exposureOf = (sitting: Sitting, assets: RigAssets, paths?: number): Exposure =>
  takeSettledExposure({ sitting, ...sceneFrom(sitting, assets) }, paths)
