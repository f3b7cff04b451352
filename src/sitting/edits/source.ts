import { defaultModifier, type Modifier, modifierKind, validateModifier } from '../../gear'
import { addScaled, distance, normalize, subtract, type Vec3 } from '../../space'
import { problemsOfGels } from '../gel'
import { centreAt, type PlaceLandmarks, placeOf, pointTowards, type SourcePlace } from '../place'
import { EditRefused, type Problem } from '../problems'
import { headFacts } from '../source-schema'
import type { Camera, Head, KitUse, Sitting, Source } from '../types'
import { changeThing, freeId, thingById } from './things'

/** Moves the centre of the lit face; the aim point stays, so the source turns as it goes. */
export const moveSource = (sitting: Sitting, id: string, centreM: Vec3): Sitting =>
  changeThing(sitting, 'sources', id, { centreM })

/** Turns the source to another point. */
export const aimSource = (sitting: Sitting, id: string, aimM: Vec3): Sitting =>
  changeThing(sitting, 'sources', id, { aimM })

/** Only its direction counts, as it shines on what it is aimed at. */
const isFar = ({ modifier }: Source): boolean => modifierKind(modifier.kind).remote?.kind === 'far'

/** The place of a source in the photographer's terms; of one that is far off, as seen from its aim. */
export const sourcePlace = (source: Source, camera: Camera, marks: PlaceLandmarks): SourcePlace =>
  placeOf(source.centreM, camera, isFar(source) ? { ...marks, eyePoint: source.aimM } : marks)

/**
 * Sets azimuth (−180 to 180°), elevation (−89 to 89°), tape (0.05 to 20 m), or some of them; what is not named is held
 * as it is now. The aim point stays. Throws EditRefused outside the ranges, and where the tape is too short. A source that is
 * far off keeps its mark's distance from the aim.
 */
export function setSourcePlace(
  sitting: Sitting,
  id: string,
  change: Partial<Pick<SourcePlace, 'azimuthFromLensDeg' | 'elevationDeg' | 'tapeM'>>,
  marks: PlaceLandmarks,
): Sitting {
  const source = thingById(sitting, 'sources', id)
  const place = { ...sourcePlace(source, sitting.camera, marks), ...change }
  requireRange('azimuthFromLensDeg', place.azimuthFromLensDeg, [-180, 180], '°')
  requireRange('elevationDeg', place.elevationDeg, [-89.9, 89.9], '°')
  const { centreM, aimM } = source
  if (isFar(source)) return moveSource(sitting, id, pointTowards(aimM, place, sitting.camera, distance(centreM, aimM)))
  requireRange('tapeM', place.tapeM, [0.05, 20], 'm')
  return moveSource(sitting, id, centreAt(place, sitting.camera, marks))
}

function requireRange(path: string, value: number, [low, high]: readonly [number, number], unit: string): void {
  if (value >= low && value <= high) return
  const problem: Problem = {
    rule: 'S15',
    path,
    expected: `${low} to ${high} ${unit}`,
    got: String(value),
    advice: 'Type a number in that range.',
  }
  throw new EditRefused(problem)
}

/**
 * Puts another modifier on the head. A word alone means that kind with its default fields, but for the head's own length, which stays what
 * it was. A calibration was of the pair, and goes.
 */
export function swapModifier(sitting: Sitting, id: string, modifier: Modifier | string): Sitting {
  const source = thingById(sitting, 'sources', id)
  return changeThing(sitting, 'sources', id, {
    modifier: typeof modifier === 'string' ? onSameHead(defaultModifier(modifier), source.modifier) : modifier,
    ...(source.modifierKg !== undefined && { modifierKg: undefined }),
    ...uncalibrated(source),
    ...noLongerOfKit(source, 'modifierId'),
  })
}

/** The length of a head stands among the fields of what is put on it. */
const onSameHead = (modifier: Modifier, { bodyM }: Modifier): Modifier =>
  modifier.bodyM !== undefined && bodyM !== undefined ? { ...modifier, bodyM } : modifier

/**
 * Changes some fields of the modifier and keeps its kind; fields that follow a changed one go along in proportion. Throws EditRefused
 * for what no such modifier can be, such as a lamp behind the rim of its umbrella (S6).
 */
export function setModifier(
  sitting: Sitting,
  id: string,
  change: Readonly<Record<string, number | string | boolean>>,
): Sitting {
  const source = thingById(sitting, 'sources', id)
  const { modifier } = source
  const along = followers(modifier, change)
  const changed = { ...modifier, ...along, ...change, kind: modifier.kind }
  const [problem] = validateModifier(changed, `${source.letter}.modifier`)
  if (problem) throw new EditRefused({ rule: 'S6', ...problem })
  return changeThing(sitting, 'sources', id, {
    modifier: changed,
    ...uncalibrated(source),
    ...noLongerOfKit(source, 'modifierId'),
  })
}

/** To a tenth of a millimetre: a drag adds up many small changes. */
const FINEST = 1e4

function followers(modifier: Modifier, change: Readonly<Record<string, unknown>>): Record<string, number> {
  const followed = modifierKind(modifier.kind).fields.flatMap((field) => {
    if (field.type !== 'number' || field.follows === undefined) return []
    const [from, to, now] = [modifier[field.follows], change[field.follows], modifier[field.id]]
    if (typeof from !== 'number' || typeof to !== 'number' || typeof now !== 'number' || !(from > 0)) return []
    const [low, high] = field.range
    return [[field.id, Math.min(high, Math.max(low, Math.round((now * to * FINEST) / from) / FINEST))] as const]
  })
  return Object.fromEntries(followed)
}

/** A calibration was of one head with one modifier. */
const uncalibrated = ({ calibration }: Source): { calibration?: undefined } =>
  calibration ? { calibration: undefined } : {}

/** What is changed by hand is no longer what stands in the kit. */
function noLongerOfKit({ kit }: Source, entry: keyof KitUse): { kit?: KitUse | undefined } {
  if (kit?.[entry] === undefined) return {}
  const { [entry]: _, ...rest } = kit
  return { kit: Object.keys(rest).length > 0 ? rest : undefined }
}

/** What of a head its kit has the say of. */
const OF_KIT = Object.keys(headFacts) as readonly (keyof typeof headFacts)[]

/** Throws EditRefused where a gel does not go with the lamp (S19). Another lamp is not calibrated. */
export function setHead(sitting: Sitting, id: string, change: Partial<Head>): Sitting {
  const source = thingById(sitting, 'sources', id)
  const head = { ...source.head, ...change }
  const [problem] = problemsOfGels(head, 'head')
  if (problem) throw new EditRefused(problem)
  const other = 'energyJ' in change || 'guideNumberM' in change
  return changeThing(sitting, 'sources', id, {
    head,
    ...(other && uncalibrated(source)),
    ...(OF_KIT.some((field) => field in change) && noLongerOfKit(source, 'headId')),
  })
}

/** Power in stops below full. Throws EditRefused outside what the dial reaches (S10). */
export function setPower(sitting: Sitting, id: string, powerStops: number): Sitting {
  requireRange('powerStops', powerStops, [thingById(sitting, 'sources', id).head.lowestStops, 0], 'stops')
  return setHead(sitting, id, { powerStops })
}

export const switchSource = (sitting: Sitting, id: string, on: boolean): Sitting =>
  changeThing(sitting, 'sources', id, { on })

/** The first letter that no source has; throws EditRefused when all 26 are taken. */
export function nextLetter(sitting: Sitting): string {
  const taken = new Set(sitting.sources.map(({ letter }) => letter))
  const free = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].find((letter) => !taken.has(letter))
  if (free) return free
  throw new EditRefused({
    rule: 'S5',
    path: 'sources',
    expected: 'at most 26 sources, one a letter',
    got: '26 and one more',
    advice: 'Remove a source first.',
  })
}

/** Where a new source of a role stands about the eyes at rest, metres, and what it is aimed at: common practice, no source. */
function usualPlace(role: Source['role'], eyeHeight: number, wallZ: number): { centreM: Vec3; aimM: Vec3 } {
  const face: Vec3 = [0, eyeHeight - 0.03, 0.05]
  switch (role) {
    case 'key':
      return { centreM: [0.8, eyeHeight + 0.75, 1], aimM: face }
    case 'fill':
      return { centreM: [-0.5, eyeHeight + 0.3, 1.9], aimM: face }
    case 'hair':
      return { centreM: [-0.6, eyeHeight + 0.8, Math.max(-1, wallZ + 0.3)], aimM: [0, eyeHeight + 0.1, -0.08] }
    case 'kicker':
      return { centreM: [-1, eyeHeight + 0.1, Math.max(-0.9, wallZ + 0.3)], aimM: face }
    case 'backdrop':
      return { centreM: [-0.9, 0.7, wallZ + 0.9], aimM: [0, eyeHeight, wallZ] }
  }
}

export interface NewSource {
  readonly role?: Source['role']
  /** A kind from gear's register, with its default fields. */
  readonly modifierKind?: string
}

/** Adds a source with the next free letter, a head of 400 J and a usual place for its role; the first is the key. Gives back its id as well. */
export function addSource(
  sitting: Sitting,
  { role = sitting.sources.length === 0 ? 'key' : 'fill', modifierKind = 'white-umbrella' }: NewSource = {},
): { readonly sitting: Sitting; readonly id: string } {
  const letter = nextLetter(sitting)
  const id = freeId(sitting, `source-${letter.toLowerCase()}`)
  const wallZ = sitting.backdrop ? -sitting.backdrop.distanceM : sitting.room.zM - sitting.room.depthM / 2
  const source: Source = {
    id,
    letter,
    role,
    on: true,
    head: { energyJ: 400, guideNumberM: null, powerStops: -4, lowestStops: -7, colourTemperatureK: 5500 },
    modifier: defaultModifier(modifierKind),
    ...usualPlace(role, sitting.sitters[0].eyeHeightM, wallZ),
    rollDeg: 0,
  }
  return { sitting: { ...sitting, sources: [...sitting.sources, source] }, id }
}

/** A lamp out of a file, as bright as the file says: at full on its dial. */
export function addMeasuredLamp(
  sitting: Sitting,
  modifier: Modifier,
): { readonly sitting: Sitting; readonly id: string } {
  const added = addSource(sitting, { modifierKind: modifier.kind })
  return { id: added.id, sitting: setPower(swapModifier(added.sitting, added.id, modifier), added.id, 0) }
}

/** A copy beside the original, 0.4 m further to camera right of it, with its own letter. */
export function duplicateSource(sitting: Sitting, id: string): { readonly sitting: Sitting; readonly id: string } {
  const original = thingById(sitting, 'sources', id)
  const letter = nextLetter(sitting)
  const copyId = freeId(sitting, `source-${letter.toLowerCase()}`)
  const forward = normalize(subtract(original.aimM, original.centreM))
  const across: Vec3 = Math.hypot(forward[0], forward[2]) > 1e-6 ? normalize([-forward[2], 0, forward[0]]) : [1, 0, 0]
  const copy = { ...original, id: copyId, letter, centreM: addScaled(original.centreM, across, 0.4) }
  return { sitting: { ...sitting, sources: [...sitting.sources, copy] }, id: copyId }
}
