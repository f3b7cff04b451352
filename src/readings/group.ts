import { stopsBetween } from '../photometry'
import { nearCheek, type RigFigure, type RigSource } from '../rig'
import { addScaled, normalize, subtract } from '../space'
import { BANDS } from './bands'
import { sumOf } from './light-table'
import { absent, PRACTICE, reading } from './reading'
import { CASING_M, fNumberOf, HELD_OFF_M, type Stage } from './stage'
import type { Reading } from './types'
import { dialStop, figure, signed } from './words'

const FORMULA = 'log₂(largest H / smallest H), disc to the key at the near cheek of each'
/** From end to end of a group; half a stop is accepted. Common practice, no source. */
const EVEN = 0.3
const ACCEPTED = 0.5

/** How even a group is lit, from end to end; nothing for one sitter. */
export function groupReadings(stage: Stage): readonly Reading[] {
  const { key, scene } = stage
  const { figures } = scene.rig
  if (!key || figures.length < 2) return []
  const lights = figures.map((sitter, i) => ({
    name: nameOf(i),
    at: probeOf(sitter, key),
    h: lightOf(stage, key, sitter),
  }))
  const [low, high] = [least(lights), most(lights)]
  const place = { name: `${low.name}, near cheek`, at: low.at.point }
  if (!(low.h > 0))
    return [
      absent({
        id: 'group.spread',
        place,
        formula: FORMULA,
        source: PRACTICE,
        sentence: `no light reaches ${low.name}.`,
      }),
    ]
  const stops = stopsBetween(low.h, high.h)
  const judged =
    stops <= EVEN
      ? 'even enough'
      : stops <= ACCEPTED
        ? 'just acceptable'
        : `take ${key.letter} farther off and more frontal`
  return [
    reading({
      id: 'group.spread',
      value: stops,
      unit: 'stop',
      text: figure(stops, 1),
      band: BANDS.ratio,
      place,
      sentence: `from ${high.name} to ${low.name}, ${formation(figures)}: ${judged}.`,
      why: {
        formula: FORMULA,
        filled: lights.map(({ name, h }) => `${name} ${dialStop(fNumberOf(stage, h))}`).join(', '),
        source: PRACTICE,
      },
    }),
    ...lights.slice(1).map(({ name, at, h }, i) =>
      reading({
        id: `group.${figures[i + 1].id}`,
        value: stopsBetween(lights[0].h, h),
        unit: 'stop',
        text: signed(stopsBetween(lights[0].h, h)),
        band: BANDS.ratio,
        place: { name: `${name}, near cheek`, at: at.point },
        sentence: `is how ${name} is lit against ${lights[0].name}.`,
        why: {
          formula: 'log₂(H / H of the first)',
          filled: `log₂(${figure(h, 1)} / ${figure(lights[0].h, 1)})`,
          source: PRACTICE,
        },
      }),
    ),
    ...rowReading(stage, key),
  ]
}

/** In depth, a row from the next, metres: a head and what is between two. */
const ROW_M = 0.35
const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six']
const countWord = (count: number): string => COUNTS[count] ?? String(count)

/** Sitters by row, from the lens; within a row each is less than a head's depth behind the one before. */
export function rowsOf(figures: readonly RigFigure[]): readonly (readonly RigFigure[])[] {
  const depth = ({ posed }: RigFigure) => posed.eyeMidpoint[2]
  const rows: RigFigure[][] = []
  for (const figure of [...figures].sort((a, b) => depth(b) - depth(a))) {
    const row = rows.at(-1)
    if (row && depth(row[0]!) - depth(figure) < ROW_M) row.push(figure)
    else rows.push([figure])
  }
  return rows
}

/** 'three abreast', 'five in two rows'. */
function formation(figures: readonly RigFigure[]): string {
  const rows = rowsOf(figures)
  return rows.length === 1
    ? `${countWord(figures.length)} abreast`
    : `${countWord(figures.length)} in ${countWord(rows.length)} rows`
}

/** From row to row: what the back row gets against the front one, mean against mean. */
function rowReading(stage: Stage, key: RigSource): readonly Reading[] {
  const rows = rowsOf(stage.scene.rig.figures)
  if (rows.length < 2) return []
  const mean = (row: readonly RigFigure[]) =>
    row.reduce((sum, sitter) => sum + lightOf(stage, key, sitter), 0) / row.length
  const [front, back] = [mean(rows[0]!), mean(rows.at(-1)!)]
  const at = rows.at(-1)![0]!.posed.eyeMidpoint
  const place = { name: 'back row', at }
  const formula = 'log₂(mean H of the back row / of the front row)'
  if (!(front > 0 && back > 0))
    return [
      absent({ id: 'group.rows', place, formula, source: PRACTICE, sentence: 'no light reaches one of the rows.' }),
    ]
  const stops = stopsBetween(front, back)
  return [
    reading({
      id: 'group.rows',
      value: stops,
      unit: 'stop',
      text: signed(stops),
      band: BANDS.ratio,
      place,
      sentence: `is how the back row is lit against the front row${Math.abs(stops) > ACCEPTED ? `: take ${key.letter} higher and farther off` : ''}.`,
      why: { formula, filled: `log₂(${figure(back, 1)} / ${figure(front, 1)})`, source: PRACTICE },
    }),
  ]
}

const nameOf = (i: number): string => (i === 0 ? 'the sitter' : `sitter ${i + 1}`)

function probeOf(sitter: RigFigure, key: RigSource) {
  const { position, normal } = sitter.posed.landmarks[nearCheek(sitter, key.frame.origin)]
  const point = addScaled(position, normal, HELD_OFF_M)
  return { point, normal: normalize(subtract(key.frame.origin, point)), casingM: CASING_M }
}

const lightOf = (stage: Stage, key: RigSource, sitter: RigFigure): number =>
  sumOf(
    stage.table.at(
      sitter === stage.figure ? 'nearCheek.disc.light' : `group.${sitter.id}`,
      probeOf(sitter, key),
      'disc',
    ),
  )

const least = <T extends { readonly h: number }>(lights: readonly T[]): T =>
  lights.reduce((a, b) => (b.h < a.h ? b : a))
const most = <T extends { readonly h: number }>(lights: readonly T[]): T => lights.reduce((a, b) => (b.h > a.h ? b : a))
