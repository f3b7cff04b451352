import { stopsBetween } from '../photometry'
import { modellingAfter, type RigSource, USUAL_MODELLING } from '../rig'
import type { ModellingLamp } from '../sitting'
import { BANDS } from './bands'
import { modellingCast } from './cast'
import { PRACTICE, reading } from './reading'
import { powerFactor, type Stage } from './stage'
import type { Reading } from './types'
import { figure, signed } from './words'

/** Less than this nobody sees. Common practice, no source (trade.md §4.3: a ratio off by 0.3 stop is tolerable). */
const SEEN: number = 0.3
/** Nearer in colour than this is alike, mired: 300 K at 5500 K is noticed, ±150 K is not (trade.md §4.3). */
const ALIKE_MIRED = 5

/**
 * By how much the modelling lamps show another light than the flash will: each against the key's own, and how far all of it lies under the
 * flash at the set shutter. Only where a head names its lamp: a guess is no reading.
 */
export function modellingReadings(stage: Stage): readonly Reading[] {
  const { sitting, scene, key } = stage
  if (!key?.modelling || !sitting.sources.some(({ head, on }) => on && head.modelling)) return []
  const flashes = scene.rig.sources.filter(({ on, burnsOn, axialIntensity }) => on && !burnsOn && axialIntensity > 0)
  return [
    ...flashes.filter(({ id }) => id !== key.id).map((source) => ratioReading(stage, source, key)),
    shareReading(stage, key),
    ...modellingCast(stage),
  ]
}

function ratioReading(stage: Stage, source: RigSource, key: RigSource): Reading {
  const id = `modelling.${source.letter}.ratio`
  const place = { name: source.letter, at: source.remote ? source.remote.markM : source.frame.origin }
  const formula = 'log₂(I lamp / I flash) − the same of the key, in the 65° dish'
  if (!source.modelling)
    return reading({
      id,
      value: 'dark',
      unit: '',
      text: 'dark',
      place,
      sentence: `is ${source.letter} by its modelling lamp, as its head has none: only the flash shows it.`,
      why: { formula, filled: '–', source: PRACTICE },
    })
  const factor = powerFactor(stage)
  const own = stopsBetween(source.axialIntensity * factor, modellingAfter(source.modelling, factor))
  const beside = stopsBetween(key.axialIntensity * factor, modellingAfter(key.modelling!, factor))
  const stops = own - beside
  const seen = Math.abs(stops) < SEEN ? 'as good as the flash' : stops > 0 ? 'too bright' : 'too dark'
  return reading({
    id,
    value: stops,
    unit: 'stop',
    text: signed(stops),
    band: BANDS.modelling,
    place,
    sentence: `is how the modelling lamps show ${source.letter} beside ${key.letter}, against the flash: ${seen}; ${lampWords(stage, source)} and ${lampWords(stage, key)}${colourWords(stage, source, key)}.`,
    why: {
      formula,
      filled: `${signed(own, 2)} − (${signed(beside, 2)}) at one dish`,
      source: 'the lamp is taken to shine as the tube does; lumens by watts are common practice, no source',
    },
  })
}

function shareReading(stage: Stage, key: RigSource): Reading {
  const { shutterS } = stage.sitting.camera
  const factor = powerFactor(stage)
  const flash = key.axialIntensity * factor
  const lamp = modellingAfter(key.modelling!, factor)
  const stops = stopsBetween(flash, lamp * shutterS)
  const adds = Math.log2(1 + 2 ** stops)
  return reading({
    id: 'modelling.share',
    value: stops,
    unit: 'stop',
    text: signed(stops),
    band: BANDS.modelling,
    place: { name: key.letter, at: key.remote ? key.remote.markM : key.frame.origin },
    sentence: `is ${key.letter}'s modelling lamp against its flash at the set shutter: left on, it adds ${figure(adds, 2)} stop${adds > 0.15 ? ' and its colour' : ''}.`,
    why: {
      formula: 'log₂(I lamp · t / I flash)',
      filled: `log₂(${figure(lamp)} cd · ${figure(shutterS, 4)} s / ${figure(flash, 1)} cd·s)`,
      source: PRACTICE,
    },
  })
}

/** As the head names it; else, and without a source, as is common. */
export const lampOf = ({ sitting }: Stage, source: RigSource | undefined): ModellingLamp =>
  sitting.sources.find(({ id }) => id === source?.id)?.head.modelling ?? USUAL_MODELLING

function lampWords(stage: Stage, source: RigSource): string {
  const { lamp, powerW, followsDial } = lampOf(stage, source)
  return `${source.letter} ${lamp} ${figure(powerW)} W ${followsDial ? 'with the dial' : 'always full'}`
}

function colourWords(stage: Stage, source: RigSource, key: RigSource): string {
  const [own, beside] = [source, key].map((one) => lampOf(stage, one).colourTemperatureK)
  const mired = 1e6 / own - 1e6 / beside
  if (Math.abs(mired) < ALIKE_MIRED) return ''
  return `; ${figure(own)} K is ${mired > 0 ? 'warmer' : 'cooler'} than ${figure(beside)} K`
}
