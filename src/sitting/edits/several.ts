import { withMirrorsAllowed } from '../mirror-rule'
import type { Panel, Sitting, Source, TestObject } from '../types'
import { duplicateThing, removeThing, setBackdrop } from './set'
import { duplicateSource, nextLetter } from './source'
import { freeId, listOf } from './things'

/** What can be carried from one set to another: gear, whatever it is aimed at. Sitters and meters belong to their set. */
export interface Carried {
  readonly sources: readonly Source[]
  readonly panels: readonly Panel[]
  readonly objects: readonly TestObject[]
}

/** Result of an edit that makes several records. */
export interface AddedSeveral {
  readonly sitting: Sitting
  readonly ids: readonly string[]
}

/** A copied thing comes to stand this far to camera right of one at its very place, metres. */
const BESIDE_M = 0.3

/** What of those things can be carried, as it stands. */
export const carriedOf = (sitting: Sitting, ids: readonly string[]): Carried => {
  const named = ({ id }: { readonly id: string }) => ids.includes(id)
  return {
    sources: sitting.sources.filter(named),
    panels: sitting.panels.filter(named),
    objects: sitting.objects.filter(named),
  }
}

/** Carries things into a set: where they stood, or beside what stands there; an id or letter that is taken becomes the next free one. */
export function addCarried(sitting: Sitting, { sources, panels, objects }: Carried): AddedSeveral {
  const ids: string[] = []
  const own = (now: Sitting, id: string) => {
    const free = freeId(now, id)
    ids.push(free)
    return free
  }
  let now = sitting
  for (const source of sources) {
    const letter = now.sources.some((other) => other.letter === source.letter) ? nextLetter(now) : source.letter
    const added = { ...source, letter, id: own(now, source.id), centreM: freePlace(now.sources, source.centreM) }
    now = { ...now, sources: [...now.sources, added] }
  }
  for (const panel of panels) {
    const added = { ...panel, id: own(now, panel.id), centreM: freePlace(now.panels, panel.centreM) }
    now = { ...now, panels: [...now.panels, added] }
  }
  for (const object of objects) {
    const added = { ...object, id: own(now, object.id), centreM: freePlace(now.objects, object.centreM) }
    now = { ...now, objects: [...now.objects, added] }
  }
  return { sitting: withMirrorsAllowed(sitting, now), ids }
}

type Point = Source['centreM']

function freePlace(others: readonly { readonly centreM: Point }[], at: Point): Point {
  const taken = ([x, y, z]: Point) => others.some(({ centreM: [u, v, w] }) => Math.hypot(u - x, v - y, w - z) < 0.01)
  let place = at
  while (taken(place)) place = [place[0] + BESIDE_M, place[1], place[2]]
  return place
}

/** Copies of all of them that can be copied, each beside its original. */
export function duplicateThings(sitting: Sitting, ids: readonly string[]): AddedSeveral {
  const made: string[] = []
  const all = ids.reduce((now, id) => {
    const list = listOf(now, id)
    if (list !== 'sources' && list !== 'panels' && list !== 'objects') return now
    const added = list === 'sources' ? duplicateSource(now, id) : duplicateThing(now, id)
    made.push(added.id)
    return added.sitting
  }, sitting)
  return { sitting: all, ids: made }
}

/** True of what can go: all but camera, room and the first sitter. */
export const isRemovable = (sitting: Sitting, id: string): boolean =>
  id === 'backdrop' ? sitting.backdrop !== null : listOf(sitting, id) !== null && sitting.sitters[0]?.id !== id

/** Without those of them that can go. */
export const removeThings = (sitting: Sitting, ids: readonly string[]): Sitting =>
  ids.reduce((now, id) => {
    if (!isRemovable(now, id)) return now
    return id === 'backdrop' ? setBackdrop(now, null) : removeThing(now, id)
  }, sitting)
