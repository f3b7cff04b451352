import { modifierKind } from '../../gear'
import type { Probe } from '../../meter'
import { normalize, subtract } from '../../space'
import { seenPlaces } from '../backdrop'
import { type IndirectStore, LightTable, type PlaceLight } from '../light-table'
import { CASING_M, farCheekOf, nearCheekOf, powerFactor, type Stage, skinProbe, stageOf, towardsLight } from '../stage'
import type { SolveInput, SolveScene } from './types'

/**
 * Luminous exposure by source id, lx·s, at the powers as shown: the document's, after re-exposure. Daylight, which has no dial, is as
 * the document has it.
 */
export type BySource = ReadonlyMap<string, number>

export const total = (lights: BySource): number => [...lights.values()].reduce((sum, h) => sum + h, 0)

/** What the solver reads of a set. Light that was traced before counts for the set of the question alone, not for a moved one. */
export function stageFor(input: SolveInput, sitting: Stage['sitting'], scene: SolveScene): Stage {
  const { paths = 0, indirect = new Map() } = input
  const store: IndirectStore = scene === input.scene ? indirect : new Map()
  return stageOf(sitting, scene, new LightTable(scene, { paths, store }), 'metres')
}

const shown = (stage: Stage, lights: readonly PlaceLight[]): BySource =>
  new Map(
    lights.map(({ source, direct, indirect }) => {
      const factor = dialIds(stage).includes(source.id) ? powerFactor(stage) : 1
      return [source.id, factor * (direct + (indirect ?? 0))] as const
    }),
  )

/** At the near cheek, disc to the key: the main reading. */
export const faceLights = (stage: Stage): BySource =>
  stage.key ? shown(stage, stage.table.at('nearCheek.disc.light', towardsLight(stage, stage.key), 'disc')) : new Map()

/** Disc on the skin of both cheeks. */
export function cheekLights(stage: Stage): { readonly near: BySource; readonly far: BySource } {
  const key = stage.key!
  const [near, far] = [nearCheekOf(stage, key), farCheekOf(stage, key)].map((cheek) =>
    shown(stage, stage.table.at(`skin.${cheek}`, skinProbe(stage, cheek), 'disc')),
  ) as [BySource, BySource]
  return { near, far }
}

/** Key, and each fill by its id, each alone, disc to it, at the key's near cheek. */
export function keyAndFill(
  stage: Stage,
  fills: readonly string[],
): { readonly key: BySource; readonly fill: BySource } {
  const key = stage.key!
  const cheek = nearCheekOf(stage, key)
  const alone = stage.table.sources
    .filter(({ id }) => fills.includes(id))
    .map((source) => {
      const lights = shown(stage, stage.table.at(`ratio.${source.id}`, towardsLight(stage, source, cheek), 'disc'))
      return [source.id, lights.get(source.id) ?? 0] as const
    })
  return { key: new Map([[key.id, faceLights(stage).get(key.id) ?? 0]]), fill: new Map(alone) }
}

/** Mean over the places of the backdrop that the camera sees; null: it sees none. */
export function backdropLights(stage: Stage): BySource | null {
  const probes = seenPlaces(stage)
  if (probes.length === 0) return null
  const each = probes.map((probe, i) => shown(stage, stage.table.at(`backdrop.${i}`, probe, 'disc')))
  return new Map(
    stage.table.sources.map(
      ({ id }) => [id, each.reduce((sum, lights) => sum + (lights.get(id) ?? 0), 0) / each.length] as const,
    ),
  )
}

/** Of one source alone at the crown, disc to it. */
export function crownLight(stage: Stage, sourceId: string): number {
  const source = stage.table.sources.find(({ id }) => id === sourceId)!
  const { point } = skinProbe(stage, 'crown')
  const probe: Probe = { point, normal: normalize(subtract(source.frame.origin, point)), casingM: CASING_M }
  return shown(stage, stage.table.at(`crown.${sourceId}`, probe, 'disc')).get(sourceId) ?? 0
}

/** Sources that are on and have a dial; daylight has none. */
export const dialIds = ({ sitting }: Stage): readonly string[] =>
  sitting.sources.filter(({ on, modifier }) => on && hasDial(modifier.kind)).map(({ id }) => id)

const hasDial = (kind: string): boolean => modifierKind(kind).remote === undefined && kind !== 'window'
