import { modifierKind, type Shaft } from '../gear'
import type { RigSource } from '../rig'
import { spillBand } from './bands'
import { PRACTICE, reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import { figure, lengthBand, lengthPhrase, lengthText, lengthUnit, shortPhrase } from './words'

/** Where the lamp stands on an umbrella's shaft, and what that does; none for another kind. */
export function shaftReadings(stage: Stage, source: RigSource): readonly Reading[] {
  const { modifier } = stage.sitting.sources.find(({ id }) => id === source.id)!
  const shaft = modifierKind(modifier.kind).shaft?.(modifier)
  if (!shaft) return []
  return [
    litReading(stage, source, shaft),
    spillReading(source, shaft),
    ...(shaft.focusM === null ? [] : [focusReading(stage, source, shaft.focusM, shaft.lampM)]),
  ]
}

const placeOf = ({ letter, frame }: RigSource) => ({ name: `canopy of ${letter}`, at: frame.origin })

function litReading({ units }: Stage, source: RigSource, shaft: Shaft): Reading {
  const { lampM, fillingM, litDiameterM, openDiameterM } = shaft
  const length = (m: number) => lengthPhrase(m, units)
  const isFull = litDiameterM > openDiameterM - 0.005
  const lamp = `the lamp stands ${length(lampM)} from the apex`
  return reading({
    id: `source.${source.letter}.shaft.lit`,
    value: litDiameterM,
    unit: lengthUnit(units),
    text: lengthText(litDiameterM, units),
    band: lengthBand(units),
    place: placeOf(source),
    sentence: isFull
      ? `of the canopy is lit, all of it: ${lamp}, and ${length(fillingM)} would do.`
      : `of ${length(openDiameterM)} of canopy is lit, and acts as the source: ${lamp}; from ${length(fillingM)} on it reaches the rim.`,
    why: {
      formula: 'where the beam has fallen to a tenth it meets the cap; s = h + ½D / tan β reaches the rim',
      filled: `s = ${length(fillingM)}, lamp at ${length(lampM)}`,
      source: 'geometry; beam of a 65° dish as cosⁿ',
    },
    sourceId: source.id,
  })
}

const spillReading = (source: RigSource, { spilledShare }: Shaft): Reading =>
  reading({
    id: `source.${source.letter}.shaft.spill`,
    value: 100 * spilledShare,
    unit: '%',
    text: figure(100 * spilledShare),
    band: spillBand(100 * spilledShare, '%'),
    place: placeOf(source),
    sentence: `of the lamp's light goes past the canopy${spilledShare < 0.1 ? '' : ': push the lamp in, or flag it'}.`,
    why: {
      formula: 'mean of cosⁿ⁺¹ of the angle to the rim, over the dish’s opening',
      filled: `${figure(100 * spilledShare, 1)} %`,
      source: 'beam of a 65° dish as cosⁿ',
    },
    sourceId: source.id,
  })

/** Within so much of the focus a silver canopy is a beam, metres. */
const NEAR_FOCUS_M = 0.08

function focusReading({ units }: Stage, source: RigSource, focusM: number, lampM: number): Reading {
  const words =
    Math.abs(lampM - focusM) < NEAR_FOCUS_M
      ? 'the lamp is near it, so the light is narrow and bright in the middle'
      : `the lamp is ${shortPhrase(Math.abs(lampM - focusM), units)} ${lampM > focusM ? 'beyond' : 'before'} it, so the light spreads`
  return reading({
    id: `source.${source.letter}.shaft.focus`,
    value: focusM,
    unit: lengthUnit(units),
    text: lengthText(focusM, units),
    band: lengthBand(units),
    place: placeOf(source),
    sentence: `from the apex lies the focus of this silver canopy: ${words}.`,
    why: {
      formula: '½R of the cap, R = (¼D² + h²) / 2h',
      filled: lengthPhrase(focusM, units),
      source: `geometry; ${PRACTICE} for near`,
    },
    sourceId: source.id,
  })
}
