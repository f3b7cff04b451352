import { isKit } from '../kit'
import { readSitting, writeSitting } from '../sitting'
import { fileStem, giveFile } from './give-file'
import { openKit } from './kit/kit-store'
import { isLampFile } from './lamp-names'
import { bytesOf, sizeProblem } from './read-file'
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

/** A sitting, a picture that carries one, a kit, a lesson, or a lamp that is carried into the present sitting. */
export async function openFile(file: File): Promise<void> {
  const large = sizeProblem(file)
  if (large) {
    refuse(file.name, large.expected, large.got)
    return
  }
  const bytes = await bytesOf(file)
  const { isPng, readPngText } = await import('../exchange')
  if (isPng(bytes)) {
    openPicture(file.name, () => readPngText(bytes, PNG_SITTING))
    return
  }
  const text = new TextDecoder().decode(bytes)
  if (isLampFile(file.name)) (await import('./lamp-files')).openLamp(file.name, text, null)
  else if (isKit(text)) openKit(file.name, text)
  else if (text.includes('"halfshade.lesson"')) (await import('./lesson/open')).openLesson(file.name, text)
  else openText(file.name, text)
}

/** In a picture's own chunk of text, as the command writes it too. */
export const PNG_SITTING = 'halfshade.sitting'

/** The sitting inside a picture. */
function openPicture(name: string, read: () => string | null): void {
  try {
    const text = read()
    if (text === null) refuse(name, 'a picture that carries its sitting', 'a picture without one')
    else openText(name, text)
  } catch (error) {
    refuse(
      name,
      'a whole picture',
      (error instanceof Error ? error.message : String(error)).replace(/^exchange\.\w+: /, ''),
    )
  }
}

const refuse = (name: string, expected: string, got: string): void =>
  setSession({
    notice: {
      title: `${name} was not opened. Your present sitting is untouched.`,
      problems: [{ path: '', expected, got, advice: 'Open a sitting file, or a picture saved from this page.' }],
    },
    page: 'readings',
  })
