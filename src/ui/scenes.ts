import { readSitting, type Sitting } from '../sitting'

/** The sittings that come with the program, by title, as text: each is read through the same gate as a file. */
const texts = import.meta.glob<string>('../../scenes/*.sitting.json', { query: '?raw', import: 'default', eager: true })

export interface Scene {
  readonly title: string
  readonly sitting: Sitting
}

export const scenes: readonly Scene[] = Object.values(texts).flatMap((text) => {
  const result = readSitting(text)
  return 'sitting' in result ? [{ title: result.sitting.title, sitting: result.sitting }] : []
})
