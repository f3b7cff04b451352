import type { Sender } from '../meter'
import type { RigSource } from '../rig'
import type { PlaceLight } from './light-table'
import { aloneTable } from './metering'
import { absent, reading } from './reading'
import { roomWords } from './shadow-depth'
import { type Stage, towardsLight } from './stage'
import type { Band, Reading } from './types'
import { figure } from './words'

const FORMULA = 'H straight / (H straight + H by way of boards, room, sitter and gear), disc to the light'
/** Bounced light is guessed to half a stop, as the tones of a room are: common practice, no source. */
const BOUNCE_STOPS = 0.5

/** What share of a source's light at its near cheek comes straight from it; what sends the rest on last. */
export function shareReading(stage: Stage, source: RigSource): Reading {
  const id = `source.${source.letter}.share`
  const place = { name: 'near cheek', at: towardsLight(stage, source).point }
  const light = aloneTable(stage, source).find((other) => other.source === source)
  const none = (sentence: string) =>
    absent({ id, place, formula: FORMULA, source: 'the meter', sourceId: source.id, sentence })
  if (!light || light.indirect === null) return none('what the room adds there is not yet traced.')
  const all = light.direct + light.indirect
  if (!(all > 0)) return none(`no light of ${source.letter} arrives at its near cheek.`)
  const straight = light.direct / all
  return reading({
    id,
    value: 100 * straight,
    unit: '%',
    text: figure(100 * straight),
    band: bandOf(straight),
    place,
    sentence: `of ${source.letter}'s light at the near cheek comes straight from it${wayWords(stage, light, all)}.`,
    why: {
      formula: FORMULA,
      filled: `${figure(light.direct, 1)} / (${figure(light.direct, 1)} + ${figure(light.indirect, 1)} lx·s)`,
      source: 'the meter; bounced light by the surface that the place sees',
    },
    sourceId: source.id,
  })
}

function wayWords(stage: Stage, { sent }: PlaceLight, all: number): string {
  const by: readonly { readonly sender: Sender; readonly words: string }[] = [
    { sender: 'boards', words: 'the panels' },
    { sender: 'room', words: roomWords(stage) },
    { sender: 'rest', words: 'sitter and gear' },
  ]
  const ways = by
    .filter(({ sender }) => sent[sender] / all >= LEAST)
    .map(({ sender, words }) => `${figure((100 * sent[sender]) / all)} % from ${words}`)
  return ways.length > 0 ? `; ${ways.join(', ')}` : ''
}
/** What rounds to nothing is not told. */
const LEAST = 0.005

/** d(straight) where the bounced part is off by BOUNCE_STOPS. */
const bandOf = (straight: number): Band => ({
  plusMinus: Math.max(1, Math.round(100 * straight * (1 - straight) * Math.LN2 * BOUNCE_STOPS)),
  unit: '%',
  basis: 'guessed',
})
