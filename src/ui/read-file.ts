import type { Problem } from '../gear'

/** The one way in for a person's files: what is too large is told before a byte of it is read. */

/** Larger files are none of ours, bytes. */
const MOST_BYTES = 64 * 2 ** 20

/** null: it may be read. */
export function sizeProblem({ size }: Pick<File, 'size'>): Problem | null {
  if (size <= MOST_BYTES) return null
  const mb = (bytes: number) => `${Math.round(bytes / 2 ** 20)} MB`
  return { path: '', expected: `at most ${mb(MOST_BYTES)}`, got: mb(size), advice: 'Open a smaller file.' }
}

/** Throws Error, in words for the person, on a file that is too large. */
export function mustBeSmall(file: File): void {
  const problem = sizeProblem(file)
  if (problem) throw new Error(`${file.name}: expected ${problem.expected}, got ${problem.got}. ${problem.advice}`)
}

/** Its text; throws as mustBeSmall does. */
export async function textOf(file: File): Promise<string> {
  mustBeSmall(file)
  return file.text()
}

/** Its bytes; throws as mustBeSmall does. */
export async function bytesOf(file: File): Promise<Uint8Array> {
  mustBeSmall(file)
  return new Uint8Array(await file.arrayBuffer())
}

/** Gives its name and text on; what cannot be read is told by `refuse` instead. */
export async function readText(
  file: File,
  open: (name: string, text: string) => void,
  refuse: (words: string) => void,
): Promise<void> {
  let text: string
  try {
    text = await textOf(file)
  } catch (error) {
    refuse(error instanceof Error ? error.message : String(error))
    return
  }
  open(file.name, text)
}
