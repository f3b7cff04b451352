import { modifierKind } from '../gear'
import { bodiesOf, directAt, type MeterScene } from '../meter'
import { fixedPointsOf } from '../paper'
import { dialOf, figure as number } from '../readings'
import { nearCheek, placeLandmarks, type Rig, type RigSource } from '../rig'
import { checkSitting, type Problem, type Sitting, type Source, tapeEnd } from '../sitting'
import { addScaled, length, normalize, subtract, type Vec3 } from '../space'
import { panelBuilt } from './panel-built'
import { offBy, spotFrom, stands } from './tape'
import type { MeterRow, SheetInput, TapeRow } from './types'

/** What was measured on the day: metres, stops of the dial, f-numbers or stops by the meter's rows. Left out: as planned. */
export interface Measured {
  readonly tapes: Readonly<
    Record<string, { readonly fromXM?: number | undefined; readonly fromZM?: number | undefined }>
  >
  readonly distances: Readonly<Record<string, number>>
  readonly heights: Readonly<Record<string, number>>
  readonly dials: Readonly<Record<string, number>>
  readonly meters: Readonly<Record<string, number>>
}

/** Less than a meter's tenth, stops. */
const SAME_STOPS = 0.05

/** By how many stops a row differs from the plan; null: it has none. */
export const differs = ({ value, unit }: MeterRow, actual: number): number | null =>
  value === null ? null : unit === 'stop' ? actual - value : 2 * Math.log2(actual / value)

/** What to change so that a row reads as planned, in words; the source's row names its dial and another distance. */
export function whatToChange(input: SheetInput, row: MeterRow, actual: number): string {
  const stops = differs(row, actual)
  if (stops === null) return 'nothing was planned here.'
  if (Math.abs(stops) < SAME_STOPS) return 'as planned.'
  const off = `${number(Math.abs(stops), 1)} stop`
  const source = row.id.endsWith('.alone') ? input.rig.sources.find(({ id }) => id === row.sourceId) : undefined
  if (!source) return stops > 0 ? `${off} over the plan.` : `${off} under the plan.`
  const ways = [dialWay(input, source, stops, off), moveWay(input, source, stops)].filter(Boolean)
  return ways.length > 0
    ? `${ways.join(' or ')}.`
    : `${off} ${stops > 0 ? 'over' : 'under'} the plan, and it has no dial.`
}

function dialWay({ sitting, exposure }: SheetInput, { id }: RigSource, stops: number, off: string): string {
  const head = sitting.sources.find((source) => source.id === id)!.head
  const dial = (exposure.perSourceStops[id] ?? head.powerStops) - stops
  if (dial > 0 || dial < head.lowestStops) return ''
  return `${stops > 0 ? 'lower' : 'raise'} by ${off} to ${dialOf(head, dial)}`
}

/** Shares of the taped distance at which the light is looked at; between them and beyond it goes by powers of the distance. */
const SHARES = [0.75, 1, 1.35, 1.8]
/** A move farther than this is another set. */
const MOST_SHARE = 2.5

interface Falloff {
  readonly tapeM: number
  /** Stops against the planned distance, at each share of it. */
  readonly stops: readonly number[]
}

const falloffs = new WeakMap<RigSource, Falloff>()

/**
 * By the meter's own direct light with nothing in its way: the cheek is moved in the light of the standing source, which comes to
 * the same. Under a canopy a metre off, light falls off by half as much as the inverse square has it.
 */
function falloffOf(rig: Rig, source: RigSource): Falloff {
  const known = falloffs.get(source)
  if (known) return known
  const [figure] = rig.figures
  const cheek = figure.posed.landmarks[nearCheek(figure, source.frame.origin)].position
  const out = subtract(source.frame.origin, cheek)
  const [tapeM, way] = [length(out), normalize(out)]
  const scene: MeterScene = { rig, bodies: bodiesOf(rig), caster: { visible: () => true, nearest: () => null } }
  const lights = SHARES.map((share) => {
    const probe = { point: addScaled(cheek, way, tapeM * (1 - share)), normal: way }
    return directAt(scene, probe, 'disc', { sources: [source], shadowed: false })[0].perCandela
  })
  const falloff = { tapeM, stops: lights.map((light) => Math.log2(light / lights[SHARES.indexOf(1)])) }
  falloffs.set(source, falloff)
  return falloff
}

/** To the distance at which the light is so many stops less. */
function moveWay({ sitting, rig }: SheetInput, source: RigSource, stops: number): string {
  if (!stands(sitting, source)) return ''
  const { tapeM, stops: known } = falloffOf(rig, source)
  const next = known.findIndex((value, i) => i > 0 && value <= -stops)
  const i = next < 0 ? known.length - 1 : next
  const slope = (known[i] - known[i - 1]) / Math.log2(SHARES[i] / SHARES[i - 1])
  const share = SHARES[i - 1] * 2 ** ((-stops - known[i - 1]) / slope)
  return share < MOST_SHARE && share > 1 / MOST_SHARE ? `move to ${number(tapeM * share, 2)} m` : ''
}

/** So near to the line through X and Z two tapes say little of how far off it a foot is, metres. */
const NEAR_LINE_M = 0.2

/** Where a foot stands by the tapes that were measured, on the side where it was planned; null: they do not meet, or none was. */
export function spotOf(
  sitting: Sitting,
  row: TapeRow,
  { tapes }: Pick<Measured, 'tapes'>,
): readonly [number, number] | null {
  const { fromXM, fromZM } = tapes[row.id] ?? {}
  if (fromXM === undefined && fromZM === undefined) return null
  const fixed = fixedPointsOf(sitting)
  const taped = { fromXM: fromXM ?? row.fromXM, fromZM: fromZM ?? row.fromZM }
  const isNear = Math.abs(row.offM) < NEAR_LINE_M
  const offM = fromXM === undefined || fromZM === undefined || isNear ? row.offM : offBy(fixed, taped, row.offM)
  return spotFrom(fixed, { ...taped, offM })
}

/**
 * The sitting as it was built: feet, sitters, panels, objects, distances, heights and dials as measured, powers as they were set, nothing giving way; the
 * plan stays as a take. What was read goes into the note. Or the problems of what was measured.
 */
export function asBuilt(
  input: SheetInput,
  rows: readonly TapeRow[],
  measured: Measured,
  words: string,
): { readonly sitting: Sitting } | { readonly problems: readonly Problem[] } {
  const { sitting, exposure } = input
  const shift = (id: string): Vec3 => {
    const row = rows.find((known) => known.id === id)
    const spot = row ? spotOf(sitting, row, measured) : null
    return row && spot ? [spot[0] - row.at[0], 0, spot[1] - row.at[1]] : [0, 0, 0]
  }
  const moved = (point: Vec3, by: Vec3): Vec3 => [point[0] + by[0], point[1] + by[1], point[2] + by[2]]
  const { takes, ...plan } = sitting
  const built: Sitting = {
    ...sitting,
    title: `${sitting.title}, as built`,
    note: [sitting.note, words].filter(Boolean).join('\n'),
    reExpose: 'nothing',
    camera: {
      ...sitting.camera,
      fNumber: exposure.fNumber,
      positionM: moved(sitting.camera.positionM, shift('tripod')),
    },
    sources: sitting.sources.map((source) => ({
      ...source,
      head: { ...source.head, powerStops: measured.dials[source.id] ?? plannedDial(input, source) },
      centreM: centreOf(input, source.id, moved(source.centreM, shift(`source.${source.id}`)), measured),
    })),
    panels: sitting.panels.map((panel) => panelBuilt(panel, rows, (row) => spotOf(sitting, row, measured))),
    // The first sitter is X itself.
    sitters: sitting.sitters.map((sitter) => {
      const [x, , z] = shift(`sitter.${sitter.id}`)
      return { ...sitter, xM: sitter.xM + x, zM: sitter.zM + z }
    }),
    objects: sitting.objects.map((object) => ({
      ...object,
      centreM: moved(object.centreM, shift(`object.${object.id}`)),
    })),
    takes: [...takes, { name: freeName(takes), sitting: plan }],
  }
  const problems = checkSitting(built)
  return problems.length > 0 ? { problems } : { sitting: built }
}

/** What was asked of a dial, no farther than it goes; of what is off or has none, what the document says. */
function plannedDial({ exposure }: SheetInput, { id, on, modifier, head }: Source): number {
  const asked = exposure.perSourceStops[id]
  if (asked === undefined || !on || modifierKind(modifier.kind).burnsOn) return head.powerStops
  return Math.min(0, Math.max(head.lowestStops, asked))
}

/** A measured height first; a measured distance then moves the face along the tape, keeping that height where it was measured. */
function centreOf({ sitting, rig }: SheetInput, id: string, from: Vec3, { heights, distances }: Measured): Vec3 {
  const height = heights[id]
  const tape = distances[id]
  const centre: Vec3 = height === undefined ? from : [from[0], height, from[2]]
  if (tape === undefined) return centre
  const end = tapeEnd(centre, sitting.camera, placeLandmarks(rig.figures[0]))
  const out = subtract(centre, end)
  if (height === undefined) return addScaled(end, normalize(out), tape)
  const level = Math.hypot(out[0], out[2])
  const reach = Math.sqrt(Math.max(0, tape ** 2 - out[1] ** 2))
  return level > 0 ? [end[0] + (out[0] * reach) / level, height, end[2] + (out[2] * reach) / level] : centre
}

function freeName(takes: Sitting['takes']): string {
  const has = (name: string) => takes.some((take) => take.name === name)
  for (let i = 1; ; i++) if (!has(i === 1 ? 'plan' : `plan ${i}`)) return i === 1 ? 'plan' : `plan ${i}`
}
