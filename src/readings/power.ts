import { modifierKind } from '../gear'
import { luminousExposureFromFNumber, ratioFromStops, stopsBetween } from '../photometry'
import type { RigSource } from '../rig'
import type { Head } from '../sitting'
import { sumOf } from './light-table'
import { absoluteBand } from './metering'
import { absent, ISO_2720, reading } from './reading'
import { type Stage, towardsLight, whereabouts } from './stage'
import type { Reading } from './types'
import { dialFraction, dialOf, dialStop, figure, signed } from './words'

/** Stops by which all sources together must be raised for the near cheek to read an f-number; null: no light to scale. */
export function stopsForFNumber(stage: Stage, fNumber: number): number | null {
  if (!stage.key) return null
  const h = sumOf(stage.table.at('nearCheek.disc.light', towardsLight(stage, stage.key), 'disc'))
  return h > 0 ? stopsBetween(h, luminousExposureFromFNumber(fNumber, stage.sitting.camera.iso)) : null
}

/** Flash energy and dial of each source that is on, for the camera's f-number, the sources keeping their relation. */
export function powerReadings(stage: Stage): readonly Reading[] {
  const { fNumber } = stage.sitting.camera
  const raise = stopsForFNumber(stage, fNumber)
  return stage.table.sources.map((source) => powerReading(stage, source, raise, fNumber))
}

function powerReading(stage: Stage, source: RigSource, raise: number | null, fNumber: number): Reading {
  const { head, modifier } = stage.sitting.sources.find(({ id }) => id === source.id)!
  const { letter, id: sourceId } = source
  const common = {
    id: `source.${letter}.power`,
    place: { name: `head of ${letter}`, at: whereabouts(stage, source) },
    sourceId,
  }
  const formula = 'J = J full · 2^(dial + stops to the f-number)'
  if (raise === null)
    return absent({
      ...common,
      formula,
      source: ISO_2720,
      sentence: 'no light reaches the near cheek: no power gives an f-number.',
    })
  const dial = head.powerStops + raise
  const { burnsOn, remote } = modifierKind(modifier.kind)
  if (burnsOn) return steadyReading(stage, common, head, { dial, isRemote: remote !== undefined }, fNumber)
  const joules = head.energyJ * ratioFromStops(dial)
  return reading({
    ...common,
    value: joules,
    unit: 'J',
    text: figure(joules, joules < 10 ? 1 : 0),
    band: absoluteBand(stage, sourceId),
    sentence: `for ${dialStop(fNumber)}, ${reach(head, dial)}`,
    why: {
      formula,
      filled: `${head.energyJ} J · 2^(${signed(head.powerStops)} ${signed(raise)})`,
      source: ISO_2720,
    },
  })
}

type Common = Pick<Reading, 'id' | 'place' | 'sourceId'>

/** Of a source that burns on through the exposure: a share of its full light. */
function steadyReading(
  stage: Stage,
  common: Common,
  head: Head,
  { dial, isRemote }: { readonly dial: number; readonly isRemote: boolean },
  fNumber: number,
): Reading {
  const percent = 100 * ratioFromStops(dial)
  const longer = `a longer exposure${isRemote ? ' or a larger aperture' : ', a larger aperture, or move it nearer'}`
  const missing = `${figure(dial, 1)} stops more than it has: ${longer}.`
  const much = `${figure(-dial, 1)} stops less than it has: a shorter exposure, a smaller aperture or ND.`
  return reading({
    ...common,
    value: percent,
    unit: '%',
    text: figure(percent, percent < 10 ? 1 : 0),
    band: absoluteBand(stage, common.sourceId ?? ''),
    sentence: `for ${dialStop(fNumber)}, ${dial > EASE ? missing : isRemote && dial < -EASE ? much : `that is ${dialFraction(dial)} of its full light.`}`,
    why: {
      formula: 'share = 2^(dial + stops to the f-number)',
      filled: `2^(${signed(head.powerStops)} ${signed(dial - head.powerStops)})`,
      source: ISO_2720,
    },
  })
}

const EASE = 0.05

function reach(head: Head, dial: number): string {
  const { energyJ, lowestStops } = head
  const lowest = dialOf(head, lowestStops)
  if (dial > EASE)
    return `${figure(dial, 1)} stops more than the ${energyJ} J head has: move it nearer, open up, or take a larger head.`
  if (dial < lowestStops - EASE)
    return `${figure(lowestStops - dial, 1)} stops under its lowest, ${lowest}: move it away, stop down, or put that much ND before it.`
  return `that is ${dialOf(head, dial)} on a ${energyJ} J head. Lowest is ${lowest}.`
}
