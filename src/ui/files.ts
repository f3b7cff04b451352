import { isKit } from '../kit'
import { readSitting, writeSitting } from '../sitting'
import { fileStem, giveFile } from './give-file'
import { openKit } from './kit/kit-store'
import { isLampFile, openLamp } from './lamp-files'
import { currentSitting, openSitting, setSession } from './store'

/** The sitting as a file on the person's disk. */
export function saveFile(): void {
  const sitting = currentSitting()
  giveFile(`${fileStem(sitting.title)}.sitting.json`, writeSitting(sitting))
}

/** Opens the text of a file; what is wrong with it is told in place, and the present sitting stays. */
export function openText(name: string, text: string): boolean {
  const result = readSitting(text)
  if ('problems' in result) {
    setSession({
      notice: { title: `${name} was not opened. Your present sitting is untouched.`, problems: result.problems },
      page: 'readings',
    })
    return false
  }
  openSitting(result.sitting, `${name} opened`)
  return true
}

/** A sitting, a kit, or a lamp that is carried into the present sitting. */
export async function openFile(file: File): Promise<void> {
  const text = await file.text()
  if (isLampFile(file.name)) openLamp(file.name, text, null)
  else if (isKit(text)) openKit(file.name, text)
  else openText(file.name, text)
}
