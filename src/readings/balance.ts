import { BALANCE_RANGE_K, balancedFor, type Kelvin, luminanceFromSrgb, type Rgb } from '../photometry'
import { BALANCE_K } from '../rig'
import { kelvinBand } from './bands'
import { absent, reading } from './reading'
import { type Stage, towardsLight } from './stage'
import type { Reading } from './types'
import { figure } from './words'

const FORMULA = 'K at which Σ H·colour has as much red as blue'
const SOURCE = 'von Kries on Bradford cones, ICC.1 annex E'
/** Under this a card looks neutral, stops: common practice, no source. */
const NEUTRAL_STOPS = 0.03

/** What a grey card at the near cheek, disc to the key, asks of the white balance; and what it records at the set one. */
export function balanceReading(stage: Stage): readonly Reading[] {
  const { key, sitting, table } = stage
  if (!key) return []
  const probe = towardsLight(stage, key)
  const place = { name: 'grey card at the near cheek', at: probe.point }
  const set = sitting.camera.balanceK ?? BALANCE_K
  const card = mixed(table.at('nearCheek.disc.light', probe, 'disc'))
  const id = 'camera.balance'
  const y = luminanceFromSrgb(card)
  if (!(y > 0))
    return [absent({ id, place, formula: FORMULA, source: SOURCE, sentence: 'no light reaches the near cheek.' })]
  const neutral = neutralFor(card, set)
  const now = `at ${set} K it is ${castWords(card)}`
  if (neutral === null)
    return [
      absent({
        ...{ id, place, formula: FORMULA, source: SOURCE },
        sentence: `no balance from ${BALANCE_RANGE_K[0]} to ${BALANCE_RANGE_K[1]} K makes a grey card here neutral; ${now}.`,
      }),
    ]
  const tint = tintWords(balancedFor(card, set, neutral))
  return [
    reading({
      id,
      value: neutral,
      unit: 'K',
      text: figure(neutral),
      band: kelvinBand(neutral),
      place,
      sentence: `makes a grey card at the near cheek neutral${tint}; ${now}.`,
      why: {
        formula: FORMULA,
        filled: `red, green, blue ${card.map((band) => figure(band / y, 3)).join(', ')} of its luminance at ${set} K`,
        source: SOURCE,
      },
    }),
  ]
}

/** Direct and bounced light, each in its source's colour: what the room's own colours add is left out. */
const mixed = (lights: ReturnType<Stage['table']['at']>): Rgb =>
  lights.reduce<Rgb>(
    (sum, { source, direct, indirect }) => {
      const h = direct + (indirect ?? 0)
      const [r, g, b] = source.colour
      return [sum[0] + h * r, sum[1] + h * g, sum[2] + h * b]
    },
    [0, 0, 0],
  )

/** What a grey card looks like: a coloured gel may leave a band without any light. */
function castWords(card: Rgb): string {
  const [red, , blue] = card
  if (!(red > 0 || blue > 0)) return 'green, without any red or blue'
  if (!(blue > 0)) return 'warm, without any blue'
  if (!(red > 0)) return 'cold, without any red'
  const warm = redOverBlue(card)
  if (Math.abs(warm) < NEUTRAL_STOPS) return 'neutral'
  return `${warm > 0 ? 'warm' : 'cold'}, red ${figure(Math.abs(warm), 2)} stop ${warm > 0 ? 'over' : 'under'} blue`
}

/** What is left where red and blue are alike. */
function tintWords([red, green]: Rgb): string {
  if (!(green > 0)) return ', but for a lack of any green'
  const stops = Math.log2(green / red)
  if (Math.abs(stops) < NEUTRAL_STOPS) return ''
  return `, but for ${figure(Math.abs(stops), 2)} stop of ${stops > 0 ? 'green' : 'magenta'}`
}

const redOverBlue = ([red, , blue]: Rgb): number => Math.log2(red / blue)

/** By halving in mired; red over blue falls as the balance is set to warmer lamps. null: no balance in the range. */
function neutralFor(card: Rgb, set: Kelvin): Kelvin | null {
  const off = (mired: number) => redOverBlue(balancedFor(card, set, 1e6 / mired))
  let [cold, warm] = [1e6 / BALANCE_RANGE_K[1], 1e6 / BALANCE_RANGE_K[0]] as [number, number]
  const within = (mired: number) => Math.min(1e6 / BALANCE_RANGE_K[0], Math.max(1e6 / BALANCE_RANGE_K[1], mired))
  if (!(off(within(cold)) >= 0 && off(within(warm)) <= 0)) return null
  for (let i = 0; i < 40; i++) {
    const middle = (cold + warm) / 2
    if (off(middle) > 0) cold = middle
    else warm = middle
  }
  return 2e6 / (cold + warm)
}
