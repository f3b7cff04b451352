import { loadCentre, type RigSource } from '../rig'
import type { Source } from '../sitting'
import type { Stage } from './stage'
import type { Caution } from './types'
import { figure, lengthPhrase } from './words'

/** Stands as their owner's kit has them. A reminder, not a certificate; all limits: common practice in the trade, no source. */
const NEARLY = 0.9
/** From the stand to the counterweight at the other end of a boom, metres. */
const TAIL_M = 0.5

const documented = ({ sitting }: Stage, { id }: RigSource): Source =>
  sitting.sources.find((source) => source.id === id)!

/** What the head and its modifier weigh together; null: not known. */
function massOf({ head, modifierKg }: Source): number | null {
  return head.massKg === undefined && modifierKg === undefined ? null : (head.massKg ?? 0) + (modifierKg ?? 0)
}

const caution = (kind: string, { letter }: RigSource, at: Caution['at'], sentence: string): Caution => ({
  id: `caution.${letter}.${kind}`,
  at,
  sentence,
})

/** A head higher than its stand goes. A boom may point upwards by as much as it is long. */
export function standReach(stage: Stage, source: RigSource): Caution | null {
  const { stand } = documented(stage, source)
  if (!stand || source.remote) return null
  const at = loadCentre(source)
  const most = stand.highestM + (stand.boomM ?? 0)
  if (at[1] <= most) return null
  const { letter } = source
  const has = `${stand.name} goes to ${lengthPhrase(stand.highestM, stage.units)}${stand.boomM ? ` and its boom ${lengthPhrase(stand.boomM, stage.units)} on` : ''}`
  const sentence = `${letter}'s lamp is ${lengthPhrase(at[1], stage.units)} up and ${has}: lower it by ${lengthPhrase(at[1] - most, stage.units)}, or take a higher stand.`
  return caution('standHeight', source, at, sentence)
}

/** More than its stand carries; or nearly all of height and load at once. */
export function standLoad(stage: Stage, source: RigSource): Caution | null {
  const documentedSource = documented(stage, source)
  const { stand } = documentedSource
  const mass = massOf(documentedSource)
  if (!stand || mass === null || source.remote) return null
  const at = loadCentre(source)
  const { letter } = source
  const where = stand.boomM ? ' at the tip of its boom' : ''
  if (mass > stand.loadKg)
    return caution(
      'standLoad',
      source,
      at,
      `${letter} weighs ${figure(mass, 1)} kg and ${stand.name} carries ${figure(stand.loadKg, 1)} kg${where}: take a stronger stand or a lighter modifier.`,
    )
  if (mass > NEARLY * stand.loadKg && at[1] > NEARLY * stand.highestM && at[1] <= stand.highestM)
    return caution(
      'standLoad',
      source,
      at,
      `${letter} is near the full height and the full load of ${stand.name} at once: bag it, or take a stronger stand.`,
    )
  return null
}

/** 'counterweight the boom, 7.5 kg at 0.50 m': by the law of the lever, where its length and the masses are known. */
export function boomWords(stage: Stage, source: RigSource): string {
  const documentedSource = documented(stage, source)
  const { stand } = documentedSource
  const mass = massOf(documentedSource)
  if (!stand) return 'counterweight the boom'
  if (!stand.boomM) return `${stand.name} has no boom and cannot stand under it: take one with a boom, counterweighted`
  if (mass === null) return `counterweight the boom of ${stand.name}`
  const weight = (mass * stand.boomM) / TAIL_M
  return `counterweight the boom of ${stand.name}, ${figure(weight, 1)} kg at ${lengthPhrase(TAIL_M, stage.units)} for ${figure(mass, 1)} kg at ${lengthPhrase(stand.boomM, stage.units)}`
}
