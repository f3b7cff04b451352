import { namesOf } from '../../paper'
import type { Sitting } from '../../sitting'

/** A thing that can be taken in hand, and the word that stands for it. */
export interface Thing {
  readonly id: string
  readonly word: string
}

/** Meters: single ones by their name, a grid by its own, which stands for the first of it. */
export function metersOf({ meterPlaces }: Sitting): readonly Thing[] {
  return meterPlaces
    .filter(({ grid }, i) => !grid || meterPlaces.findIndex((other) => other.grid === grid) === i)
    .map(({ id, name, grid }) => ({ id, word: grid ?? name }))
}

/** 'A, B and white panel': those things by their words. */
export function namesIn(sitting: Sitting, ids: readonly string[]): string {
  const known = [...thingsOf(sitting), ...sitting.meterPlaces.map(({ id, name }) => ({ id, word: name }))]
  const words = ids.map((id) => known.find((thing) => thing.id === id)?.word ?? id)
  return words.length < 2 ? words.join() : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** Everything in the set, in the order of the work: sources, sitter, camera, then what stands about. */
export function thingsOf(sitting: Sitting): readonly Thing[] {
  return [
    ...sitting.sources.map(({ id, letter }) => ({ id, word: letter })),
    ...sitting.sitters.map(({ id }, i) => ({ id, word: i === 0 ? 'sitter' : `sitter ${i + 1}` })),
    { id: 'camera', word: 'camera' },
    ...[...namesOf(sitting)].map(([id, word]) => ({ id, word })),
    ...(sitting.backdrop ? [{ id: 'backdrop', word: 'backdrop' }] : []),
    { id: 'room', word: 'room' },
  ]
}
