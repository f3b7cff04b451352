import { modifierKind } from '../gear'
import { figure } from '../readings'
import { panelWords } from '../sitting'
import type { KitItem, SheetInput } from './types'
import { exactLength, sizedWords, sizeWords } from './words'

/** Packed, its feet folded: common practice, no source. */
const STAND_LONG_M = 1.1

/** Everything to bring, for this set: what it holds, and what no set goes without (common practice in the trade, no source). */
export function kitItems({ sitting }: SheetInput): readonly KitItem[] {
  const { sources, panels, backdrop, camera, objects, room } = sitting
  const carried = sources.filter(({ modifier }) => modifierKind(modifier.kind).remote === undefined)
  const flashes = carried.filter(({ modifier }) => !modifierKind(modifier.kind).burnsOn)
  const standing = carried.filter(({ modifier }) => modifierKind(modifier.kind).onCamera === undefined)
  const booms = standing.filter(({ stand }) => stand?.boomM !== undefined)
  const items: (readonly [what: string, count: number, massKg?: number | undefined])[] = [
    ...carried.map(
      ({ letter, head }) =>
        [`${letter}: ${head.name ?? `lamp head, ${figure(head.energyJ)} J`}`, 1, head.massKg] as const,
    ),
    ...carried.map(
      ({ letter, modifier, modifierKg }) =>
        [`${letter}: ${sizedWords(modifier)}, with its mount`, 1, modifierKg] as const,
    ),
    ...standing.map(({ letter, stand }) => [`${letter}: ${stand?.name ?? 'stand'}`, 1] as const),
    ...carried.flatMap(({ letter, head }) => gelsOf(letter, head)),
    ['sandbag', standing.length + booms.length + panels.length],
    ...panels.map((panel) => [`${panelWords(panel)} ${sizeWords([panel.widthM, panel.heightM])}`, 1] as const),
    ['panel stand and clamp', panels.length],
    ...objects.map(({ kind }) => [kind === 'ball' ? 'matt ball' : 'card', 1] as const),
    ...(backdrop
      ? ([
          [`paper roll ${exactLength(backdrop.widthM)}`, 1],
          ['backdrop stand, crossbar', 2],
        ] as const)
      : []),
    ['camera, card, charged battery', 1],
    [`lens ${figure(camera.focalLengthMm)} mm${camera.hood ? ' with hood' : ''}`, 1],
    ['tripod', 1],
    ['seat for the sitter', sitting.sitters.length],
    ['flash meter', 1],
    ['trigger, and a receiver a head', flashes.length > 0 ? 1 : 0],
    ['lead and unwound reel', room.outdoors ? 0 : carried.length],
    ['tape measure, 5 m or 16′', 2],
    ['gaffer tape, bright tape for legs', 1],
    ['grey card', 1],
    ['spare bulb, fuse, batteries, card', 1],
    ['gloves for hot parts', 1],
    ['step', 1],
    ['first-aid kit', 1],
    ['this sheet, pencil', 1],
  ]
  return items
    .filter(([, count]) => count > 0)
    .map(([what, count, massKg], i) => ({ id: `${i}.${what}`, what, count, massKg: massKg ?? null }))
}

function gelsOf(letter: string, { gelMired, gelColour, ndStops }: SheetInput['sitting']['sources'][number]['head']) {
  const names = [
    gelMired ? `conversion gel ${figure(gelMired)} mired` : '',
    gelColour ? 'coloured gel' : '',
    ndStops ? `ND ${figure(ndStops, 1)} stops` : '',
  ]
  return names.filter(Boolean).map((name) => [`${letter}: ${name}`, 1] as const)
}

/** Longest item and what is known of the weight. */
export function kitWords({ sitting: { backdrop, panels } }: SheetInput, items: readonly KitItem[]): string {
  const long = Math.max(
    STAND_LONG_M,
    backdrop?.widthM ?? 0,
    ...panels.map(({ widthM, heightM }) => Math.max(widthM, heightM)),
  )
  const known = items.filter(({ massKg }) => massKg !== null)
  const kg = known.reduce((sum, { massKg, count }) => sum + (massKg ?? 0) * count, 0)
  const weight =
    known.length > 0
      ? `${figure(kg, 1)} kg for what is known of ${known.length} of ${items.length} things`
      : 'not known: enter it in the kit'
  return `Longest: ${exactLength(long)}. Weight: ${weight}.`
}
