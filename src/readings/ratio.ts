import { visibleShare } from '../meter'
import { highlightRatioFromKeyOverFill, keyRatioFromKeyOverFill, stopsBetween } from '../photometry'
import type { RigSource } from '../rig'
import { BANDS } from './bands'
import { aloneOf, sumOf } from './light-table'
import { aloneLight } from './metering'
import { absent, PRACTICE, reading } from './reading'
import { cheekName, farCheekOf, nearCheekOf, type Stage, skinProbe, towardsLight } from './stage'
import type { Reading } from './types'
import { figure, signed } from './words'

/** How the two sides of the face differ: stops first, then the trade's two ratios, each by its name. */
export function ratioReadings(stage: Stage): readonly Reading[] {
  const { key } = stage
  if (!key) return []
  return [cheeksReading(stage, key), ...namedRatios(stage, key)]
}

function cheeksReading(stage: Stage, key: RigSource): Reading {
  const [near, far] = [nearCheekOf(stage, key), farCheekOf(stage, key)]
  const [a, b] = [near, far].map((cheek) => sumOf(stage.table.at(`skin.${cheek}`, skinProbe(stage, cheek), 'disc')))
  const place = { name: cheekName(stage, far), at: skinProbe(stage, far).point }
  const formula = 'log₂(H far / H near), disc on the skin, all sources on'
  const id = 'ratio.nearFar'
  if (!(a > 0 && b > 0))
    return absent({
      id,
      place,
      formula,
      source: PRACTICE,
      sentence: 'one cheek gets no light at all: no ratio in stops.',
    })
  const stops = stopsBetween(a, b)
  return reading({
    id,
    value: stops,
    unit: 'stop',
    text: signed(stops),
    band: BANDS.shadow,
    place,
    sentence: `from the ${cheekName(stage, near)} to the ${cheekName(stage, far)}, disc on the skin, everything on.`,
    why: { formula, filled: `log₂(${figure(b, 1)} / ${figure(a, 1)})`, source: PRACTICE },
  })
}

/** Least share of the fill that a cheek must see for it to count as reached. */
const REACHED = 0.5

/** Why the two named ratios don't apply; null: they do. */
function whyNot(stage: Stage, key: RigSource, fills: readonly RigSource[]): string | null {
  if (fills.length === 0)
    return stage.sitting.panels.some(({ kind }) => kind !== 'black')
      ? 'the fill is a panel and reaches one cheek only. Near to far cheek is the number to keep.'
      : 'no source has the role fill. Near to far cheek is the number to keep.'
  if (key.role === 'fill') return 'only the fill is on.'
  const cheeks = [nearCheekOf(stage, key), farCheekOf(stage, key)]
  const misses = fills.find((fill) =>
    cheeks.some((cheek) => {
      const { point, normal } = skinProbe(stage, cheek)
      const reaches = stage.table.direct(fill, { point, normal }, 'disc') > 0
      return !reaches || (visibleShare(stage.table.arrivals(fill, point)) ?? 0) < REACHED
    }),
  )
  return misses
    ? `${misses.letter} is the fill but does not reach both cheeks. Near to far cheek is the number to keep.`
    : null
}

const NAMED = [
  {
    id: 'ratio.keyFill',
    name: 'key : fill',
    fromKeyOverFill: keyRatioFromKeyOverFill,
    formula: 'key : fill, each alone, disc to it, at the near cheek of the key',
  },
  {
    id: 'ratio.highlightShadow',
    name: 'highlight : shadow',
    fromKeyOverFill: highlightRatioFromKeyOverFill,
    formula: '(key + fill) : fill, each alone, disc to it, at the near cheek of the key',
  },
] as const

function namedRatios(stage: Stage, key: RigSource): readonly Reading[] {
  const fills = stage.table.sources.filter(({ role }) => role === 'fill')
  const reason = whyNot(stage, key, fills)
  const cheek = nearCheekOf(stage, key)
  const place = { name: 'near cheek', at: skinProbe(stage, cheek).point }
  if (reason !== null)
    return NAMED.map(({ id, formula }) => ({
      ...absent({ id, place, formula, source: PRACTICE, sentence: reason }),
      text: 'No ratio by name',
    }))
  const keyLight = aloneLight(stage, key)
  const fillLight = fills.reduce((sum, fill) => {
    const lights = stage.table.at(`ratio.${fill.id}`, towardsLight(stage, fill, cheek), 'disc')
    return sum + aloneOf(lights, fill.id)
  }, 0)
  const keyOverFill = stopsBetween(fillLight, keyLight)
  return NAMED.map(({ id, name, formula, fromKeyOverFill }) => {
    const value = fromKeyOverFill(keyOverFill)
    return reading({
      id,
      value,
      unit: ':1',
      text: figure(value, 1),
      band: BANDS.ratio,
      place,
      sentence: `${name}: ${fills.map(({ letter }) => letter).join(' and ')} is ${signed(-keyOverFill)} stop against ${key.letter}.`,
      why: { formula, filled: `${figure(keyLight, 1)} and ${figure(fillLight, 1)} lx·s`, source: PRACTICE },
    })
  })
}
