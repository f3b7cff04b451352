import type { Carried } from './edits'
import { firstSitting } from './first'
import type { Problem } from './problems'
import { parseText, readSitting } from './read'
import { pretty } from './write'

/** Things on their way from one set to another, as text for the clipboard. */
const FORMAT = 'halfshade.things'

export const writeCarried = (carried: Carried): string => `${pretty({ format: FORMAT, version: 1, ...carried }, '')}\n`

/** Whether a text means to be such things at all; what else is pasted is left to whoever wants it. */
export const isCarried = (text: string): boolean => text.trimStart().startsWith('{') && text.includes(`"${FORMAT}"`)

/** Things from such a text, held against the document's own rules, or every problem found. */
export function readCarried(text: string): { readonly carried: Carried } | { readonly problems: readonly Problem[] } {
  const parsed = parseText(text)
  if ('problem' in parsed) return { problems: [parsed.problem] }
  const { sources = [], panels = [], objects = [] } = parsed.value as Partial<Carried>
  // In a set of their own: whatever is wrong with a thing is wrong with that.
  const read = readSitting({ ...firstSitting(), meterPlaces: [], sources, panels, objects })
  return 'problems' in read ? read : { carried: read.sitting }
}
