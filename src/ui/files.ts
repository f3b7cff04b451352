import { readSitting, writeSitting } from '../sitting'
import { isLampFile, openLamp } from './lamp-files'
import { currentSitting, openSitting, setSession } from './store'

/** The sitting as a file on the person's disk. */
export function saveFile(): void {
  const sitting = currentSitting()
  const url = URL.createObjectURL(new Blob([writeSitting(sitting)], { type: 'application/json' }))
  const link = document.createElement('a')
  link.href = url
  link.download = `${fileStem(sitting.title)}.sitting.json`
  link.click()
  URL.revokeObjectURL(url)
}

export const fileStem = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '') || 'sitting'

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

/** A sitting, or a lamp that is carried into the present one. */
export async function openFile(file: File): Promise<void> {
  const text = await file.text()
  if (isLampFile(file.name)) openLamp(file.name, text, null)
  else openText(file.name, text)
}
