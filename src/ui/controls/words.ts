import type { Sitting, TestObject } from '../../sitting'

export const MATERIAL_WORDS: Readonly<Record<TestObject['kind'], string>> = {
  ball: 'matt ball',
  card: 'card',
  'flag-before-card': 'flag before a card',
}

/** A thing that can be taken in hand, and the word that stands for it. */
export interface Thing {
  readonly id: string
  readonly word: string
}

/** Everything in the set, in the order of the work: sources, sitter, camera, then what stands about. */
export function thingsOf(sitting: Sitting): readonly Thing[] {
  return [
    ...sitting.sources.map(({ id, letter }) => ({ id, word: letter })),
    ...sitting.sitters.map(({ id }, i) => ({ id, word: i === 0 ? 'sitter' : `sitter ${i + 1}` })),
    { id: 'camera', word: 'camera' },
    ...numbered(sitting.panels.map(({ id, kind }) => ({ id, word: `${kind} panel` }))),
    ...numbered(sitting.objects.map(({ id, kind }) => ({ id, word: MATERIAL_WORDS[kind] }))),
    ...(sitting.backdrop ? [{ id: 'backdrop', word: 'backdrop' }] : []),
    { id: 'room', word: 'room' },
  ]
}

/** 'white panel', 'white panel 2': two things must not share a word. */
function numbered(things: readonly Thing[]): Thing[] {
  const seen = new Map<string, number>()
  return things.map(({ id, word }) => {
    const count = (seen.get(word) ?? 0) + 1
    seen.set(word, count)
    return { id, word: count === 1 ? word : `${word} ${count}` }
  })
}
