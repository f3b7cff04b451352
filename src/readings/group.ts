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
      sentence: `from ${high.name} to ${low.name}, ${figures.length === 2 ? 'two' : figures.length} abreast: ${judged}.`,
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
