import { PhotometricFileError, type PhotometricLamp, readEulumdat, readIes } from '../exchange'
import { measuredModifier, type Problem, validateModifier } from '../gear'
import { addMeasuredLamp, swapModifier, thingById } from '../sitting'
import { IES } from './lamp-names'
import { readText } from './read-file'
import { currentSitting, edit, editAndSelect, setSession } from './store'
import { tellNotRead } from './tell-not-read'

/** Reads a lamp's file into a source; null: into a new one. What is wrong with it is told in place. */
export function openLamp(name: string, text: string, sourceId: string | null): boolean {
  const read = lampOf(name, text)
  if ('problems' in read) {
    setSession({
      notice: { title: `${name} was not read. The sitting is as it was.`, problems: read.problems },
      page: 'readings',
    })
    return false
  }
  const { modifier, notes } = read
  if (sourceId === null) editAndSelect(`${name} added`, (sitting) => addMeasuredLamp(sitting, modifier))
  else
    edit(`${name} read into ${thingById(currentSitting(), 'sources', sourceId).letter}`, (sitting) =>
      swapModifier(sitting, sourceId, modifier),
    )
  if (notes.length > 0) setSession({ notice: { title: `${name}: ${notes.join(' ')}`, problems: [] } })
  return true
}

/** A file that the person picked for a source. */
export const openLampFile = (file: File, sourceId: string): Promise<void> =>
  readText(file, (name, text) => openLamp(name, text, sourceId), tellNotRead)

type Read =
  | { readonly modifier: ReturnType<typeof measuredModifier>; readonly notes: readonly string[] }
  | { readonly problems: readonly Problem[] }

function lampOf(name: string, text: string): Read {
  try {
    const lamp = IES.test(name) ? readIes(text) : readEulumdat(text)
    const modifier = measuredModifier(lamp)
    const problems = validateModifier(modifier, name)
    return problems.length > 0 ? { problems } : { modifier, notes: [...lamp.notes, ...openingNotes(lamp, modifier)] }
  } catch (error) {
    if (!(error instanceof PhotometricFileError)) throw error
    const { where, expected, got, advice } = error
    return { problems: [{ path: where, expected, got, advice }] }
  }
}

/** A point shines from no place: what it was given instead. */
const openingNotes = ({ opening }: PhotometricLamp, { widthM, heightM }: { readonly [field: string]: unknown }) =>
  Math.min(opening.widthM, opening.lengthM) < Math.min(Number(widthM), Number(heightM))
    ? ['Its luminous opening is a point or a line in the file; it is taken as 1 cm wide. Set its size if you know it.']
    : []
