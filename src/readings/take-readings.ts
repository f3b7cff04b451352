import { bodiesOf, type MeterScene, type RigBodies } from '../meter'
import type { Rig } from '../rig'
import type { Sitting } from '../sitting'
import type { RayCaster } from '../space'
import { aloneElsewhere } from './alone-elsewhere'
import { backdropReadings } from './backdrop'
import { balanceReading } from './balance'
import { cameraReadings } from './camera'
import { castReadings } from './cast'
import { catchlightReadings } from './catchlights'
import { cautionsOf } from './cautions'
import { edgeReadings } from './edges'
import { broadShortReading, lensHeightReading } from './facing'
import { flareReading } from './flare'
import { glareReadings } from './glare'
import { groupReadings } from './group'
import { type IndirectStore, LightTable } from './light-table'
import { meterPlaceReadings } from './meter-places'
import { meteringReadings } from './metering'
import { modellingReadings } from './modelling'
import { movementReadings } from './movement'
import { patternReading } from './pattern'
import { placingReadings } from './placing'
import { powerReadings } from './power'
import { ratioReadings } from './ratio'
import { redEyeReading } from './red-eye'
import { sensitivityReadings } from './sensitivity'
import { shaftReadings } from './shaft'
import { shareReading } from './shares'
import { sizeReadings } from './size'
import { skyReadings } from './sky'
import { type Exposure, stageOf } from './stage'
import type { Caution, Reading } from './types'
import type { Units } from './words'

export interface ReadingsInput {
  readonly sitting: Sitting
  readonly rig: Rig
  /** Built over bodies.bodies, in that order. */
  readonly caster: RayCaster
  /** Default: bodiesOf(rig). */
  readonly bodies?: RigBodies
  /**
   * Paths for bounced light at each place in this pass. 0 (default): quick, nothing is traced and the bounce is what
   * `indirect` holds. Else the new paths join those of `indirect`: call again with the returned store to refine.
   */
  readonly paths?: number
  /** From an earlier call. Still good for a quick answer after an edit; start a full one from an empty store then. */
  readonly indirect?: IndirectStore
  readonly units?: Units
}

export interface ReadingsOutput {
  readonly readings: readonly Reading[]
  readonly cautions: readonly Caution[]
  readonly exposure: Exposure
  readonly indirect: IndirectStore
  /** Rays cast for this answer. */
  readonly rays: number
}

/** Every number of a sitting, as records; what re-exposure does to the powers is in `exposure`, and in the readings. */
export const takeReadings = (input: ReadingsInput): ReadingsOutput => answerOf(input, begun(input))

/** The exposure of takeReadings by itself, bit for bit, for the light of the one place that it is metered at; and the store that a further pass goes on from. */
export function takeExposure(input: ReadingsInput): Pick<ReadingsOutput, 'exposure' | 'indirect'> {
  const { scene, table } = begun(input)
  return { exposure: stageOf(input.sitting, scene, table, input.units ?? 'metres').exposure, indirect: table.store }
}

/**
 * takeReadings in steps of some milliseconds, between which the caller may look whether anybody still waits: most of the
 * light is worked out before the answer is put together. Its steps are those places that were asked for in an earlier
 * answer over the same rig; without one all is done in the last step.
 */
export function* readingSteps(input: ReadingsInput): Generator<undefined, ReadingsOutput> {
  const work = begun(input)
  yield* work.table.steps()
  return answerOf(input, work)
}

interface Work {
  readonly scene: MeterScene
  readonly table: LightTable
  rays(): number
}

function begun({ rig, caster, bodies = bodiesOf(rig), paths = 0, indirect = new Map() }: ReadingsInput): Work {
  const counted = counting(caster)
  const scene: MeterScene = { rig, bodies, caster: counted.caster }
  return { scene, table: new LightTable(scene, { paths, store: indirect }), rays: counted.count }
}

function answerOf({ sitting, rig, paths = 0, units = 'metres' }: ReadingsInput, work: Work): ReadingsOutput {
  const { scene, table } = work
  const stage = stageOf(sitting, scene, table, units)
  // A sky is all round: it has no place and throws no edge; its flare and catchlights are of another kind.
  const placed = rig.sources.filter(({ remote }) => remote?.kind !== 'around')
  const lit = placed.filter(({ on }) => on)
  const readings = [
    ...meteringReadings(stage),
    ...meterPlaceReadings(stage),
    ...lit.flatMap((source) => edgeReadings(stage, source)),
    patternReading(stage, paths > 0),
    broadShortReading(stage),
    ...lit.flatMap((source) => catchlightReadings(stage, source)),
    ...lit.map((source) => redEyeReading(stage, source)),
    ...lit.flatMap((source) => glareReadings(stage, source)),
    ...lit.map((source) => flareReading(stage, source)),
    ...rig.sources
      .filter(({ on, remote }) => on && remote?.kind === 'around')
      .flatMap((source) => skyReadings(stage, source)),
    ...lit.map((source) => shareReading(stage, source)),
    ...ratioReadings(stage),
    ...backdropReadings(stage),
    ...placed.flatMap((source) => [
      ...placingReadings(stage, source),
      ...sizeReadings(stage, source),
      ...shaftReadings(stage, source),
    ]),
    ...aloneElsewhere(stage),
    ...powerReadings(stage),
    ...groupReadings(stage),
    ...sensitivityReadings(stage),
    lensHeightReading(stage),
    ...cameraReadings(stage),
    ...castReadings(stage),
    ...modellingReadings(stage),
    ...movementReadings(stage),
    ...balanceReading(stage),
  ]
  return {
    readings,
    cautions: cautionsOf(stage),
    exposure: stage.exposure,
    indirect: table.store,
    rays: work.rays(),
  }
}

function counting(caster: RayCaster): { readonly caster: RayCaster; count(): number } {
  let rays = 0
  return {
    caster: {
      visible(from, to, ignore) {
        rays++
        return caster.visible(from, to, ignore)
      },
      nearest(origin, direction, ignore) {
        rays++
        return caster.nearest(origin, direction, ignore)
      },
    },
    count: () => rays,
  }
}
