import { pretty, problemSentence } from '../sitting'
import { readKit } from './read'
import type { Kit } from './types'

/** The text of a kit file, canonical as that of a sitting. Throws on a kit that could not be read back. */
export function writeKit(kit: Kit): string {
  const result = readKit(kit)
  if ('problems' in result) throw new Error(`kit.writeKit: ${result.problems.map(problemSentence).join(' ')}`)
  return `${pretty(result.kit, '')}\n`
}
