import type { Sitting, Source } from '../sitting'
import type { Verdict } from './judge'
import { changesBetween } from './sets'

/**
 * Parts of a sitting, by which a try says what its learner may change: 'A.place', 'A.power' and so on of a source by its letter, 'A' all
 * of it, 'sources' all of them with how many there are, and the other records of a sitting by their names.
 */
const WHOLE: Readonly<Record<string, string>> = {
  sources: 'the sources',
  sitters: 'the sitters',
  panels: 'the panels',
  objects: 'the test objects',
  backdrop: 'the backdrop',
  room: 'the room',
  camera: 'the camera',
  reExpose: 'what gives way',
}
const OF_SOURCE: readonly (readonly [part: string, word: string, places: RegExp])[] = [
  ['place', 'place', /^(centreM|aimM|rollDeg)/],
  ['power', 'power', /^head\.powerStops/],
  ['modifier', 'modifier', /^modifier/],
  ['on', 'switch', /^on$/],
  ['lamp', 'lamp', /./],
]

export const isPart = (name: string): boolean =>
  name in WHOLE || new RegExp(`^[A-Z](\\.(${OF_SOURCE.map(([part]) => part).join('|')}))?$`).test(name)

/** 'A’s place', 'the backdrop'. */
export function partWords(name: string): string {
  const [letter, part] = name.split('.')
  const word = OF_SOURCE.find(([id]) => id === part)?.[1]
  return word ? `${letter}’s ${word}` : (WHOLE[name] ?? name)
}

/** All that may be named, of this sitting. */
export const partsOf = ({ sources }: Sitting): readonly string[] => [
  ...sources.flatMap(({ letter }) => OF_SOURCE.map(([part]) => `${letter}.${part}`)),
  ...Object.keys(WHOLE),
]

function partAt({ sources }: Sitting, place: string): string {
  const [, index, rest] = /^sources\[(\d+)\]\.?(.*)$/.exec(place) ?? []
  if (index === undefined) return /^\w+/.exec(place)![0]
  const part = OF_SOURCE.find(([, , places]) => places.test(rest!))?.[0] ?? 'lamp'
  return `${sources[Number(index)]!.letter}.${part}`
}

const covers = (name: string, part: string): boolean =>
  name === part || part.startsWith(`${name}.`) || (name === 'sources' && /^[A-Z]\./.test(part))

/** Without what goes along when a modifier is swapped, and without fields that hold nothing. */
const plain = (sitting: Sitting): Sitting => ({
  ...sitting,
  sources: sitting.sources.map(
    ({ modifierKg: _kg, calibration: _calibration, kit: _kit, ...source }) =>
      Object.fromEntries(Object.entries(source).filter(([, value]) => value !== undefined)) as unknown as Source,
  ),
})

/** Whether a set differs from the one that it was begun with in these parts alone. Where meters are held is nobody's business. */
export function judgeParts(only: readonly string[], from: Sitting, own: Sitting): Verdict {
  const changed = new Set(Object.keys(changesBetween(plain(from), plain(own))).map((place) => partAt(from, place)))
  const others = [...changed].filter((part) => isPart(part) && !only.some((name) => covers(name, part)))
  const words = others.map(partWords).join(', ')
  return others.length === 0
    ? { met: true, found: '', words: 'met' }
    : { met: false, found: words, words: `${words} changed too` }
}

/**
 * 'change only A’s place, the backdrop (A is the key, so lettered on the plan)'; of a lamp that may be moved while its power keeps the
 * exposure: 'move only A, the key, so lettered on the plan; its power follows by itself'. lamps: those whose letters are to be told.
 */
export function onlyWords(only: readonly string[], lamps: readonly Pick<Source, 'letter' | 'role'>[] = []): string {
  const told = lamps.filter(({ letter }) => only.some((name) => name.split('.')[0] === letter))
  const letter = only[0]!.split('.')[0]!
  if (only.join() === `${letter}.place,${letter}.power`)
    return `move only ${letter}${told.map(({ role }) => `, the ${role}, so lettered on the plan`).join('')}; its power follows by itself`
  const letters = told.map(({ letter, role }) => `${letter} is the ${role}`).join(', ')
  return `change only ${only.map(partWords).join(', ')}${letters && ` (${letters}, so lettered on the plan)`}`
}
