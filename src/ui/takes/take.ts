import { keepTake, openTake, type Sitting } from '../../sitting'

export type Take = Sitting['takes'][number]
type Body = Take['sitting']

/** The gesture of takes shown in turn, so that a row of them is one step. */
export const COMPARED = 'takes compared'

/** What the words beside the takes do, told where they first stand. */
export const COMPARE_WORDS = {
  compare: 'both whole, side by side',
  'split picture': 'both in one frame',
  'in turn': 'one after the other in one place',
} as const
export const WAYS_TO_COMPARE = Object.entries(COMPARE_WORDS)
  .map(([word, does]) => `‹${word}›: ${does}`)
  .join('; ')

/** Words about the whole sitting, which a take of the set leaves as they are. */
const WORDS: readonly string[] = ['title', 'note'] satisfies (keyof Body)[]

/** True where the set now is what the take holds. Most records are shared; those read from a file are compared whole. */
export function shows(sitting: Sitting, take: Take): boolean {
  const { takes: _, ...body } = sitting
  return (Object.keys(take.sitting) as (keyof Body)[]).every(
    (key) =>
      WORDS.includes(key) ||
      body[key] === take.sitting[key] ||
      JSON.stringify(body[key]) === JSON.stringify(take.sitting[key]),
  )
}

/** The set of a take, under the title and note that the sitting has now. */
export const showTake = (sitting: Sitting, name: string): Sitting => ({
  ...openTake(sitting, name),
  title: sitting.title,
  note: sitting.note,
})

/** The take that the set now is; null: none. */
export const takeShown = (sitting: Sitting): Take | null => sitting.takes.find((take) => shows(sitting, take)) ?? null

/** The sitting with another set among its takes, under the wanted name or the next free one after it; a take of that very set is left as it is. */
export function withTake(
  sitting: Sitting,
  set: Sitting,
  wanted: string,
): { readonly sitting: Sitting; readonly name: string } {
  const { takes } = sitting
  const known = takes.find((take) => shows(set, take))
  if (known) return { sitting, name: known.name }
  const isFree = (name: string) => takes.every((take) => take.name !== name)
  let name = wanted
  for (let n = 2; !isFree(name); n++) name = `${wanted}, ${n}`
  return { sitting: { ...sitting, takes: keepTake({ ...set, takes }, name).takes }, name }
}

const keys = new WeakMap<Body, string>()

/** What a take's picture is kept under on this device: the same set has the same picture, whatever its take is called. */
export function pictureKey({ sitting }: Take): string {
  const known = keys.get(sitting) ?? digest(JSON.stringify(sitting))
  keys.set(sitting, known)
  return known
}

/** FNV-1a over UTF-16 units, forwards and backwards: 64 bits, to tell a few hundred sets apart. */
function digest(text: string): string {
  const over = (start: number, step: 1 | -1) => {
    let hash = 0x811c9dc5
    for (let i = start; i >= 0 && i < text.length; i += step) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
    return (hash >>> 0).toString(16).padStart(8, '0')
  }
  return over(0, 1) + over(text.length - 1, -1)
}
