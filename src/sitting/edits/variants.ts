import { buildModifier, defaultModifier, MODIFIER_KINDS, type Modifier, modifierKind, modifierName } from '../../gear'
import { SKIN_TONES } from '../../photometry'
import { dot, radians, subtract, type Vec3 } from '../../space'
import type { PlaceLandmarks, SourcePlace } from '../place'
import { EditRefused } from '../problems'
import type { PanelCloth, Sitting } from '../types'
import { panelWords } from '../words'
import { setPanel, setSitter } from './set'
import { setModifier, setSourcePlace, sourcePlace, swapModifier } from './source'
import { thingById } from './things'
import { isInFace, isTooNear, NEAREST_M, reachM } from './too-near'
import { SITTER_ROWS, sourceRows, type VariantRow } from './variant-rows'

/** What tells a variant from its neighbours. Metres, degrees. */
export type VariantLabel =
  | { readonly kind: 'words'; readonly words: string }
  | { readonly kind: 'length'; readonly metres: number }
  | { readonly kind: 'angle'; readonly degrees: number }

export interface Variant {
  readonly label: VariantLabel
  readonly sitting: Sitting
  /** It is the set as it stands. */
  readonly isNow: boolean
  /** Letter of the only source that is on; null: of no one. */
  readonly alone: string | null
}

/** Modifiers that a portrait studio has, by their shape, finishes of one shape side by side: common practice, no source. */
const MODIFIERS = [
  'dish',
  'beauty-dish',
  'silver-umbrella',
  'white-umbrella',
  'shoot-through-umbrella',
  'softbox',
  'octa',
] as const
/** The rest of what goes onto the same head. */
const OTHER_MODIFIERS = ['wide-dish', 'long-dish', 'bare-bulb', 'snoot', 'deep-umbrella', 'strip', 'scrim'] as const
/** What the boards of a studio are covered with: common practice, no source. */
const FINISHES: readonly PanelCloth[] = ['white', 'silver', 'gold', 'black']
/** One stop apart, m. */
export const TAPES_M = [0.5, 0.7, 1, 1.4, 2, 2.8]
/** Times the size that it has. */
const SIZES = [0.5, 0.7, 1, 1.4, 2]
const HEIGHTS_DEG = [0, 15, 30, 45, 60]
const TURNS_DEG = [0, 30, 45, 60, 90, 135]
const HEAD_TURNS_DEG = [-40, -20, 0, 20, 40]
/** So many sources by themselves, so that a row stays in sight. */
const MOST_ALONE = 7
/** Values nearer than this to the one in the set are the one in the set. */
const SAME = { metres: 0.02, degrees: 2 }

/**
 * The set in several states of one thing, in order, the present one among them; at most eight. Empty where the source has
 * nothing of the kind to vary. marks: of the first sitter as posed. For finishes the id is a panel's. Throws Error where there is no such
 * source or panel.
 */
export function variantsOf(sitting: Sitting, id: string, row: VariantRow, marks: PlaceLandmarks): readonly Variant[] {
  if (row === 'sources one by one') return oneByOne(sitting)
  if (row === 'finishes') return finishesOf(sitting, id, marks)
  const sourceId = id
  const { modifier } = thingById(sitting, 'sources', sourceId)
  const place = sourcePlace(thingById(sitting, 'sources', sourceId), sitting.camera, marks)
  const placed = (change: Partial<SourcePlace>) => {
    const moved = attempt(() => setSourcePlace(sitting, sourceId, change, marks))
    return moved && isInRoom(thingById(moved, 'sources', sourceId).centreM, sitting.room) ? moved : null
  }
  if (!SITTER_ROWS.includes(row) && !sourceRows(modifier).includes(row)) return []
  switch (row) {
    case 'modifiers':
    case 'other modifiers':
      return modifiersOf(sitting, sourceId, row, (swapped) =>
        swapped === sitting || !isInFace(thingById(swapped, 'sources', sourceId).modifier, place.tapeM)
          ? swapped
          : null,
      )
    case 'modifiers, near':
      return [
        one(words(`${modifierName(modifier)}, as it stands`), sitting, true),
        ...modifiersOf(sitting, sourceId, 'modifiers', (swapped, tapeM) =>
          attempt(() => setSourcePlace(swapped, sourceId, { tapeM }, marks)),
        ),
      ]
    case 'sizes':
      return sizesOf(sitting, sourceId)
    case 'distances':
      return along(
        sitting,
        place.tapeM,
        TAPES_M.filter((tapeM) => !isTooNear(modifier, tapeM)),
        SAME.metres,
        (metres) => ({ kind: 'length', metres }),
        (tapeM) => placed({ tapeM }),
      )
    case 'heights':
      return along(sitting, place.elevationDeg, HEIGHTS_DEG, SAME.degrees, angle, (elevationDeg) =>
        placed({ elevationDeg }),
      )
    case 'turns': {
      const side = place.azimuthFromLensDeg < 0 ? -1 : 1
      const turns = TURNS_DEG.map((turn) => (turn === 0 ? 0 : side * turn))
      return along(sitting, place.azimuthFromLensDeg, turns, SAME.degrees, angle, (azimuthFromLensDeg) =>
        placed({ azimuthFromLensDeg }),
      )
    }
    case 'head turns': {
      const [{ id, headTurnDeg }] = sitting.sitters
      return along(sitting, headTurnDeg, HEAD_TURNS_DEG, SAME.degrees, angle, (turn) =>
        setSitter(sitting, id, { headTurnDeg: turn }),
      )
    }
    case 'skins': {
      const [{ id, skin: own }] = sitting.sitters
      return SKIN_TONES.map((skin) =>
        one(words(skin), skin === own ? sitting : setSitter(sitting, id, { skin }), skin === own),
      )
    }
  }
}

/** Each source that is on by itself, and then all. */
function oneByOne(sitting: Sitting): readonly Variant[] {
  const lit = sitting.sources.filter(({ on }) => on)
  if (lit.length < 2) return []
  const alone = lit.slice(0, MOST_ALONE).map(({ id, letter }): Variant => {
    const sources = sitting.sources.map((source) => (source.on && source.id !== id ? { ...source, on: false } : source))
    return { label: words(`${letter} alone`), sitting: { ...sitting, sources }, isNow: false, alone: letter }
  })
  return [...alone, one(words('all together'), sitting, true)]
}

/** The side of a panel that faces the sitter in each cloth; the other side stays. */
function finishesOf(sitting: Sitting, panelId: string, { eyePoint }: PlaceLandmarks): readonly Variant[] {
  const panel = thingById(sitting, 'panels', panelId)
  const [turn, tilt] = [radians(panel.turnDeg), radians(panel.tiltDeg)]
  const front: Vec3 = [Math.sin(turn) * Math.cos(tilt), Math.sin(tilt), Math.cos(turn) * Math.cos(tilt)]
  const isFront = dot(front, subtract(eyePoint, panel.centreM)) >= 0
  const back = panel.back ?? panel.kind
  const own = isFront ? panel.kind : back
  return (FINISHES.includes(own) ? FINISHES : [...FINISHES, own]).map((cloth) => {
    const varied =
      cloth === own ? sitting : setPanel(sitting, panelId, isFront ? { kind: cloth, back } : { back: cloth })
    return one(words(panelWords({ ...panel, kind: cloth })), varied, cloth === own)
  })
}

const words = (text: string): VariantLabel => ({ kind: 'words', words: text })
const angle = (degrees: number): VariantLabel => ({ kind: 'angle', degrees })
const one = (label: VariantLabel, sitting: Sitting, isNow: boolean): Variant => ({ label, sitting, isNow, alone: null })

/** Outdoors there is room everywhere. */
function isInRoom([x, y, z]: Vec3, { outdoors, widthM, depthM, heightM, xM, zM }: Sitting['room']): boolean {
  if (outdoors) return true
  return Math.abs(x - xM) < widthM / 2 && Math.abs(z - zM) < depthM / 2 && y > 0 && y < heightM
}

/** null: refused there. */
function attempt(change: () => Sitting): Sitting | null {
  try {
    return change()
  } catch (error) {
    if (error instanceof EditRefused) return null
    throw error
  }
}

/** At each of these values, and at the one in the set in place of one that is as good as equal. */
function along(
  sitting: Sitting,
  now: number,
  values: readonly number[],
  same: number,
  label: (value: number) => VariantLabel,
  at: (value: number) => Sitting | null,
): readonly Variant[] {
  const others = values.filter((value) => Math.abs(value - now) > same)
  const rising = (values.at(-1) ?? 0) >= (values[0] ?? 0) ? 1 : -1
  return [...others, now]
    .sort((a, b) => rising * (a - b))
    .flatMap((value) => {
      const varied = value === now ? sitting : at(value)
      return varied ? [one(label(value), varied, value === now)] : []
    })
}

/** As long as its longer side, and with its lamp still off the face. */
function nearestM(modifier: Modifier): number {
  const { widthM, heightM } = buildModifier(modifier).litFace
  return Math.max(NEAREST_M.face, widthM, heightM, reachM(modifier) + NEAREST_M.gear)
}

const KINDS: Readonly<Record<'modifiers' | 'other modifiers', readonly string[]>> = {
  modifiers: MODIFIERS,
  'other modifiers': OTHER_MODIFIERS,
}

/** The modifiers of a row, the set's own in place of the one of its kind. put: as near as is practical. */
function modifiersOf(
  sitting: Sitting,
  sourceId: string,
  row: keyof typeof KINDS,
  put: (swapped: Sitting, nearestM: number) => Sitting | null,
): readonly Variant[] {
  const own = thingById(sitting, 'sources', sourceId).modifier
  const kinds = KINDS[row]
  const known = kinds.includes(own.kind) ? kinds : row === 'modifiers' ? [...kinds, own.kind] : [own.kind, ...kinds]
  return known
    .filter((kind) => MODIFIER_KINDS.some(({ id }) => id === kind))
    .flatMap((kind) => {
      const swapped = kind === own.kind ? sitting : swapModifier(sitting, sourceId, kind)
      const { modifier } = thingById(swapped, 'sources', sourceId)
      const varied = put(swapped, nearestM(modifier))
      return varied ? [one(words(modifierName(modifier)), varied, varied === sitting)] : []
    })
}

/** What of a row of modifiers another than a source's own would be, as it would come. */
export const modifiersIn = (row: keyof typeof KINDS, own: Modifier): readonly Modifier[] =>
  KINDS[row].filter((kind) => kind !== own.kind).map((kind) => defaultModifier(kind))

const SIZE_FIELDS = ['diameterM', 'widthM', 'heightM']

function sizesOf(sitting: Sitting, sourceId: string): readonly Variant[] {
  const { modifier } = thingById(sitting, 'sources', sourceId)
  const fields = modifierKind(modifier.kind).fields.filter(({ id }) => SIZE_FIELDS.includes(id))
  if (fields.length === 0) return []
  return SIZES.flatMap((times) => {
    const change = Object.fromEntries(
      fields.map(({ id }) => [id, Math.round(Number(modifier[id]) * times * 100) / 100]),
    )
    const fits = fields.every(
      (field) => field.type === 'number' && change[field.id]! >= field.range[0] && change[field.id]! <= field.range[1],
    )
    if (!fits) return []
    const varied = times === 1 ? sitting : setModifier(sitting, sourceId, change)
    return [one(words(modifierName(thingById(varied, 'sources', sourceId).modifier)), varied, times === 1)]
  })
}
