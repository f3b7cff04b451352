import type { Probe } from '../meter'
import type { Receptor } from '../photometry'
import type { RigSource } from '../rig'
import { normalize, subtract } from '../space'
import { aloneOf } from './light-table'
import { meterReading } from './metering'
import { CASING_M, cheekName, farCheekOf, type Stage, skinProbe } from './stage'
import type { Reading } from './types'

interface Held {
  readonly id: string
  /** Of the probe, in the store: one for all sources where they share it. */
  readonly probeId: string
  readonly name: string
  readonly probe: Probe
  readonly receptor: Receptor
  readonly words: string
}

/** Each source alone where the trade meters beside the near cheek: far cheek, chin, and what lights the hair at the crown. */
export function aloneElsewhere(stage: Stage): readonly Reading[] {
  const { key, table } = stage
  if (!key) return []
  return table.sources.flatMap((source) =>
    [farCheek(stage, key), chin(stage), ...hair(stage, source)].map((held) => readingAt(stage, source, held)),
  )
}

function readingAt(stage: Stage, source: RigSource, { id, probeId, name, probe, receptor, words }: Held): Reading {
  const h = aloneOf(stage.table.at(probeId, probe, receptor), source.id)
  return meterReading(
    stage,
    { id: `source.${source.letter}.at.${id}`, name, at: probe.point, receptor, sourceId: source.id },
    h,
    `is what the meter shows for ${source.letter} alone at the ${name}, ${words}.`,
  )
}

/** The place that near against far cheek asks for too. */
function farCheek(stage: Stage, key: RigSource): Held {
  const cheek = farCheekOf(stage, key)
  const probe = skinProbe(stage, cheek)
  const name = `far cheek, the ${cheekName(stage, cheek)}`
  return { id: 'farCheek', probeId: `skin.${cheek}`, name, probe, receptor: 'disc', words: 'disc on the skin' }
}

function chin(stage: Stage): Held {
  const { point } = skinProbe(stage, 'chin')
  const normal = normalize(subtract(stage.sitting.camera.positionM, point))
  const probe: Probe = { point, normal, casingM: CASING_M }
  return { id: 'chin', probeId: 'chin.dome.lens', name: 'chin', probe, receptor: 'dome', words: 'dome to the lens' }
}

function hair(stage: Stage, source: RigSource): readonly Held[] {
  if (source.role !== 'hair' && source.role !== 'kicker') return []
  const { point } = skinProbe(stage, 'crown')
  const probe: Probe = { point, normal: normalize(subtract(source.frame.origin, point)), casingM: CASING_M }
  const { letter, id } = source
  return [{ id: 'hair', probeId: `hair.${id}`, name: 'crown', probe, receptor: 'disc', words: `disc to ${letter}` }]
}
