import { BALANCE_RANGE_K } from '../../photometry'
import type { Vec3 } from '../../space'
import { DEFAULT_HOOD } from '../hood'
import { withMirrorsAllowed } from '../mirror-rule'
import { EditRefused } from '../problems'
import type { Backdrop, Camera, Hood, MeterPlace, Panel, Room, Sitter, Sitting, TestObject } from '../types'
import { type Change, changeThing, freeId, listOf, thingById } from './things'

/** Result of an edit that makes a new record. */
export interface Added {
  readonly sitting: Sitting
  readonly id: string
}

export const setSitter = (sitting: Sitting, id: string, change: Change<Sitter>): Sitting =>
  changeThing(sitting, 'sitters', id, change)

export const setPanel = (sitting: Sitting, id: string, change: Change<Panel>): Sitting =>
  withMirrorsAllowed(sitting, changeThing(sitting, 'panels', id, change))

export const movePanel = (sitting: Sitting, id: string, centreM: Vec3): Sitting => setPanel(sitting, id, { centreM })

/** Adds an upright board, as a rule at camera left of the sitter with its front to the face. */
export function addPanel(sitting: Sitting, kind: Panel['kind'] = 'white'): Added {
  const id = freeId(sitting, 'panel')
  const eyes = sitting.sitters[0].eyeHeightM
  const panel: Panel = {
    id,
    kind,
    widthM: 1,
    heightM: 1.5,
    centreM: [-0.62, eyes - 0.05, 0.1],
    turnDeg: 90,
    tiltDeg: 0,
  }
  return { sitting: withMirrorsAllowed(sitting, { ...sitting, panels: [...sitting.panels, panel] }), id }
}

/** Two tall boards, hinged: white within, black outside, as a rule at camera left with its hollow to the sitter. */
export function addVFlat(sitting: Sitting): Added {
  const { sitting: with1, id } = addPanel(sitting)
  const vFlat: Change<Panel> = {
    ...{ back: 'black', widthM: 2, heightM: 2.2, foldDeg: 80 },
    centreM: [-1.1, 1.1, 0.1],
  }
  return { sitting: setPanel(with1, id, vFlat), id }
}

type ObjectChange = Readonly<Record<string, number | Vec3>>

/** Changes fields of a test object; its kind and id stay. */
export function setObject(sitting: Sitting, id: string, change: ObjectChange): Sitting {
  const { kind } = thingById(sitting, 'objects', id)
  return changeThing(sitting, 'objects', id, { ...change, kind } as Change<TestObject>)
}

export const moveObject = (sitting: Sitting, id: string, centreM: Vec3): Sitting => setObject(sitting, id, { centreM })

/** Adds a test body beside the head at camera right, facing the camera. */
export function addObject(sitting: Sitting, kind: TestObject['kind'] = 'card'): Added {
  const id = freeId(sitting, kind)
  const centreM: Vec3 = [0.32, sitting.sitters[0].eyeHeightM, 0]
  const board = { id, centreM, widthM: 0.2, heightM: 0.25, turnDeg: 0, tiltDeg: 0 }
  const objects: Readonly<Record<TestObject['kind'], TestObject>> = {
    ball: { id, kind: 'ball', centreM, diameterM: 0.15, reflectance: 0.18 },
    card: { ...board, kind: 'card', reflectance: 0.18 },
    'flag-before-card': { ...board, kind: 'flag-before-card', gapM: 0.025, reflectance: 0.85 },
  }
  return { sitting: { ...sitting, objects: [...sitting.objects, objects[kind]] }, id }
}

/** Hangs a backdrop, changes it, or takes it down (null) with the meters that are held on it. */
export function setBackdrop(sitting: Sitting, change: Partial<Backdrop> | null): Sitting {
  if (change === null) return { ...sitting, backdrop: null, meterPlaces: offBackdrop(sitting.meterPlaces) }
  const before: Backdrop = sitting.backdrop ?? {
    widthM: 2.72,
    heightM: 2.4,
    distanceM: 1.5,
    reflectance: [0.6, 0.6, 0.6],
  }
  return { ...sitting, backdrop: { ...before, ...change } }
}

export const setRoom = (sitting: Sitting, change: Partial<Room>): Sitting => ({
  ...sitting,
  room: { ...sitting.room, ...change },
})

export const setCamera = (sitting: Sitting, change: Partial<Camera>): Sitting => ({
  ...sitting,
  camera: { ...sitting.camera, ...change },
})

/** White balance at what a grey card asks for, K; to the kelvin. Throws EditRefused where no balance makes it neutral (0: none). */
export function setBalanceFromCard(sitting: Sitting, kelvin: number): Sitting {
  const [least, most] = BALANCE_RANGE_K
  if (kelvin >= least && kelvin <= most) return setCamera(sitting, { balanceK: Math.round(kelvin) })
  throw new EditRefused({
    rule: 'S15',
    path: 'camera.balanceK',
    expected: `a grey card that a balance from ${least} to ${most} K makes neutral`,
    got: kelvin > 0 ? `${Math.round(kelvin)} K` : 'none',
    advice: 'Wait for the readings, light the face with a lamp in that range, or type a balance.',
  })
}

/** Puts a hood on the lens, changes it, or takes it off (null). */
export const setHood = (sitting: Sitting, change: Partial<Hood> | null): Sitting =>
  setCamera(sitting, { hood: change && { ...DEFAULT_HOOD, ...sitting.camera.hood, ...change } })

/** What gives way when the light changes (product of readings and recombination; the document only keeps the choice). */
export const setReExpose = (sitting: Sitting, reExpose: Sitting['reExpose']): Sitting => ({ ...sitting, reExpose })

export const setTitle = (sitting: Sitting, title: string): Sitting => ({ ...sitting, title })
export const setNote = (sitting: Sitting, note: string): Sitting => ({ ...sitting, note })

/**
 * Removes a source, panel, object, meter place, or a sitter with the meter places on it. Throws EditRefused for the
 * first sitter, from whom the set is measured, and an Error where nothing has the id.
 */
export function removeThing(sitting: Sitting, id: string): Sitting {
  const list = listOf(sitting, id)
  if (!list) throw new Error(`sitting.removeThing: nothing has the id ${id}`)
  if (sitting.sitters[0].id === id)
    throw new EditRefused({
      rule: 'S9',
      path: 'sitters[0]',
      expected: 'a first sitter: the set is measured from there',
      got: 'its removal',
      advice: 'Change this sitter instead.',
    })
  const without = {
    ...sitting,
    [list]: (sitting[list] as readonly { id: string }[]).filter((thing) => thing.id !== id),
  }
  if (list === 'sources') {
    const places = sitting.meterPlaces.map((place) => withoutSource(place, id))
    return places.every((place, i) => place === sitting.meterPlaces[i]) ? without : { ...without, meterPlaces: places }
  }
  if (list !== 'sitters') return without
  const meterPlaces = sitting.meterPlaces.filter(({ at }) => !('sitterId' in at && at.sitterId === id))
  return { ...without, meterPlaces }
}

/** The same list where none is held on the backdrop. */
function offBackdrop(places: readonly MeterPlace[]): readonly MeterPlace[] {
  const off = places.filter(({ at }) => !('acrossShare' in at))
  return off.length === places.length ? places : off
}

/** A meter that was turned to a source, or counted it, once that source is gone: turned to the key, counting the rest, which may be none. */
function withoutSource(place: MeterPlace, id: string): MeterPlace {
  const { facing, sourceIds, ...kept } = place
  const rest = sourceIds?.filter((other) => other !== id)
  const aimed = typeof facing === 'object' && 'sourceId' in facing && facing.sourceId === id
  if (!aimed && rest?.length === sourceIds?.length) return place
  return { ...kept, facing: aimed ? 'light' : facing, ...(rest && { sourceIds: rest }) }
}

/** A copy of a panel or object, 0.3 m further to camera right. */
export function duplicateThing(sitting: Sitting, id: string): Added {
  const list = listOf(sitting, id)
  if (list !== 'panels' && list !== 'objects')
    throw new Error(`sitting.duplicateThing: no panel or object with id ${id}`)
  const original = thingById(sitting, list, id)
  const copyId = freeId(sitting, list === 'panels' ? 'panel' : original.kind)
  const [x, y, z] = original.centreM
  const copy = { ...original, id: copyId, centreM: [x + 0.3, y, z] }
  return { sitting: withMirrorsAllowed(sitting, { ...sitting, [list]: [...sitting[list], copy] }), id: copyId }
}
