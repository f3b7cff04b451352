import { readFile } from 'node:fs/promises'
import type { FigureAsset } from '../figure'
import { bodiesOf } from '../meter'
import { createRayCaster } from '../rays'
import { type ReadingsOutput, takeReadings, type Units } from '../readings'
import { assembleRig, shapeFault } from '../rig'
import { problemSentence, readSitting, type Sitting } from '../sitting'

const ASSET = new URL('../../assets/sitter.glb', import.meta.url)

/** 1: the file is no sitting. 2: called wrongly, or the file cannot be opened. */
export class Stop extends Error {
  constructor(
    readonly code: 1 | 2,
    message: string,
  ) {
    super(message)
  }
}

/** The text of a file and the sitting in it. Throws Stop with the file, the place, what was expected and what to do. */
export async function sittingFrom(file: string): Promise<{ readonly text: string; readonly sitting: Sitting }> {
  let text: string
  try {
    text = await readFile(file, 'utf8')
  } catch (error) {
    throw new Stop(2, `${file}: cannot be opened (${error instanceof Error ? error.message : String(error)})`)
  }
  const result = readSitting(text)
  if ('problems' in result)
    throw new Stop(1, result.problems.map((problem) => `${file}: ${problemSentence(problem)}`).join('\n'))
  return { text, sitting: result.sitting }
}

export const figureBytes = async (): Promise<Uint8Array> => new Uint8Array(await readFile(ASSET))

/** paths: of bounced light at each place. Throws Stop for a shape that no sitter can have. */
export function readingsOf(
  sitting: Sitting,
  figure: FigureAsset,
  { paths, units = 'metres' }: { readonly paths: number; readonly units?: Units },
): ReadingsOutput {
  const fault = shapeFault(sitting, figure)
  if (fault) throw new Stop(1, problemSentence(fault))
  const rig = assembleRig(sitting, { figure })
  const bodies = bodiesOf(rig)
  return takeReadings({ sitting, rig, bodies, caster: createRayCaster(bodies.bodies), paths, units })
}
