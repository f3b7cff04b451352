import { formatFNumber } from '../camera'
import {
  bouncedOf,
  type HalfRoomBounce,
  type HalfRoomGrid,
  luminanceOfCells,
  type MeterScene,
  type Probe,
  type SeenThing,
} from '../meter'
import { fNumberFromLuminousExposure, type LuxSeconds, ratioFromStops } from '../photometry'
import { closePlace, keyOf, meterDirection, meterPoint, nearCheek, type Rig, shadowCheek } from '../rig'
import type { Sitting } from '../sitting'
import { addScaled, dot, normalize, scale, subtract } from '../space'
import { type Exposure, HELD_OFF_M } from './stage'
import { side } from './words'

/** A piece of skin, or a meter place of the document, from which the half-room is seen. */
export interface SeeingPlace {
  readonly id: string
  readonly name: string
}

const SHADOW: SeeingPlace = { id: 'shadowCheek', name: 'cheek away from the key' }
const NEAR: SeeingPlace = { id: 'nearCheek', name: 'near cheek' }
const PLACE = 'place.'
/** Places of the face by name; where it has two of one, the side as the camera sees it is added. */
const MARKS = {
  cheekRight: 'cheek at',
  cheekLeft: 'cheek at',
  noseShadowCheekRight: 'cheek beside the nose,',
  noseShadowCheekLeft: 'cheek beside the nose,',
  foreheadCentre: 'forehead',
  chin: 'chin',
} as const
type Mark = keyof typeof MARKS

/** From the cheek that has the shadow first, then the one near the light; then by name; then the document's own meter places. */
export function seeingPlaces(sitting: Pick<Sitting, 'meterPlaces'>, rig: Rig): readonly SeeingPlace[] {
  const marks = (Object.keys(MARKS) as Mark[]).map((id) => ({
    id,
    name: /(Left|Right)$/.test(id) ? `${MARKS[id]} ${sideOf(rig, id)}` : MARKS[id],
  }))
  const meters = sitting.meterPlaces.map(({ id, name }) => ({ id: `${PLACE}${id}`, name: `meter at ${name}` }))
  return [...(keyOf(rig) ? [SHADOW] : []), NEAR, ...marks, ...meters]
}

function sideOf({ figures, view }: Rig, mark: Mark): string {
  const { landmarks, eyeMidpoint } = figures[0].posed
  return side(-dot(view.frame.x, subtract(landmarks[mark].position, eyeMidpoint)))
}

/** The place that is meant; one that the set no longer has gives way to the near cheek. */
export const seeingPlace = (sitting: Pick<Sitting, 'meterPlaces'>, rig: Rig, id: string): SeeingPlace =>
  seeingPlaces(sitting, rig).find((place) => place.id === id) ?? NEAR

/** Where a disc lies flat on the skin there. A meter place in free air faces what its meter is turned to. */
export function seeingProbe(sitting: Sitting, rig: Rig, id: string): Probe {
  const meant = seeingPlace(sitting, rig, id).id
  const held = sitting.meterPlaces.find((place) => meant === `${PLACE}${place.id}`)
  if (held) {
    const { point, normal } = meterPoint(held, rig)
    return normal
      ? { point: addScaled(point, normal, HELD_OFF_M), normal }
      : { point, normal: meterDirection(held, rig) }
  }
  const [figure] = rig.figures
  const towards = keyOf(rig)?.frame.origin ?? rig.view.frame.origin
  const mark =
    meant === SHADOW.id
      ? shadowCheek(figure.posed, subtract(towards, figure.posed.landmarks.noseTip.position))
      : meant === NEAR.id
        ? nearCheek(figure, towards)
        : (meant as Mark)
  const { position, normal } = figure.posed.landmarks[mark]
  return { point: addScaled(position, normal, HELD_OFF_M), normal }
}

/** From how far before the skin it is looked for, metres: under the nose, over the cheek's plane. */
const BEFORE_M = 0.015

/**
 * From the middle of the edge of the nose's shadow, on the skin, straight towards the key: what the cheek sees of it past the nose. null:
 * there is no key, or its light throws no such edge forward.
 */
export function edgeProbe({ rig, caster }: Pick<MeterScene, 'rig' | 'caster'>): Probe | null {
  const place = closePlace(rig)
  if (place?.of !== 'nose') return null
  const { at, normal, key } = place
  const from = addScaled(at, normal, BEFORE_M)
  const down = scale(normal, -1)
  const hit = caster.nearest(from, down)
  const skin = hit && hit.distance < 2 * BEFORE_M ? addScaled(from, down, hit.distance) : at
  const point = addScaled(skin, normal, OFF_SKIN_M)
  return { point, normal: normalize(subtract(key.frame.origin, point)) }
}
/** As little as keeps its rays off that skin: what is farther off sees farther past the nose. */
const OFF_SKIN_M = 0.001

/** The half-room as it goes to the page. Light at the set powers. */
export interface SeenRoom extends Pick<HalfRoomGrid, 'frame' | 'side' | 'thing'> {
  /** A cell, cd·s/m². */
  readonly luminance: Float32Array
  readonly things: readonly (SeenThing & { readonly bounced: LuxSeconds })[]
}

export const seenRoom = (grid: HalfRoomGrid, bounce: HalfRoomBounce): SeenRoom => ({
  frame: grid.frame,
  side: grid.side,
  thing: grid.thing,
  luminance: luminanceOfCells(grid, bounce),
  things: grid.things.map((thing, i) => ({ ...thing, bounced: bouncedOf(bounce, i) })),
})

/** What belongs together in words. 'room': walls, floor and ceiling. 'own': the first sitter's skin; what they wear by name. */
export type SeenGroup =
  | 'source'
  | 'gear'
  | 'panel'
  | 'object'
  | 'backdrop'
  | 'room'
  | 'own'
  | (typeof WORN)[number]
  | 'sitter'
  | 'nothing'

const WORN = ['hair', 'clothes', 'headwear', 'glasses'] as const

export function groupOf({ kind, id, part }: SeenThing, rig: Rig): SeenGroup {
  switch (kind) {
    case 'surface': {
      const surface = rig.surfaces.find((one) => one.id === id)?.kind
      return surface === 'panel' || surface === 'backdrop'
        ? surface
        : surface === 'card' || surface === 'flag'
          ? 'object'
          : 'room'
    }
    case 'sitter':
      if (id !== rig.figures[0].id) return 'sitter'
      return part === 'garment' ? 'clothes' : (WORN.find((name) => name === part) ?? 'own')
    case 'ball':
      return 'object'
    default:
      return kind
  }
}

export interface LightShare {
  readonly group: SeenGroup
  /** Of the source, panel or object; '' where the group is one thing. */
  readonly id: string
  readonly light: LuxSeconds
  /** Of all the light that falls there, 0 to 1. */
  readonly share: number
  /** Of the disc, 0 to 1. */
  readonly area: number
}

/** A flag belongs to its card. */
const ownerOf = (id: string): string => id.replace(/\.flag$/, '')
const SINGLE: readonly SeenGroup[] = ['backdrop', 'room', 'own', ...WORN, 'nothing']

/** What brings the light, most first. */
export function lightShares({ things }: SeenRoom, rig: Rig): readonly LightShare[] {
  const rows = new Map<string, { group: SeenGroup; id: string; light: number; area: number }>()
  for (const thing of things) {
    const group = groupOf(thing, rig)
    const id = SINGLE.includes(group) ? '' : ownerOf(thing.id)
    const row = rows.get(`${group} ${id}`) ?? { group, id, light: 0, area: 0 }
    rows.set(`${group} ${id}`, row)
    row.light += thing.direct + thing.bounced
    row.area += thing.share
  }
  const total = [...rows.values()].reduce((sum, { light }) => sum + light, 0)
  return [...rows.values()]
    .map((row) => ({ ...row, share: total > 0 ? row.light / total : 0 }))
    .sort((a, b) => b.light - a.light)
}

/** What a disc flat on the skin reads: 'f/8 + 0.3'; null: no light falls there. */
export function flatReading(
  { things }: SeenRoom,
  { factorStops }: Pick<Exposure, 'factorStops'>,
  iso: number,
): string | null {
  const light = things.reduce((sum, { direct, bounced }) => sum + direct + bounced, 0)
  return light > 0 ? formatFNumber(fNumberFromLuminousExposure(light * ratioFromStops(factorStops), iso)) : null
}
