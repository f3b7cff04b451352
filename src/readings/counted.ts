import { luminanceFromSrgb, type Rgb } from '../photometry'
import { modellingAfter, type RigSource } from '../rig'
import type { MeterCounts, MeterPlace } from '../sitting'
import { burnsOn } from './burns-on'
import type { PlaceLight } from './light-table'
import { lampOf } from './modelling'
import { powerFactor, type Stage } from './stage'
import { figure } from './words'

/** What a source gives off that a meter may count, as a share of its light in the table, in its own colour. */
interface Part {
  readonly share: number
  readonly colour: Rgb
}

/** Parts of a source's light that a place counts: its flash or what burns on, and its modelling lamp over the open shutter. */
function partsOf(stage: Stage, { sourceIds, counts }: MeterPlace, source: RigSource): readonly Part[] {
  if (sourceIds && !sourceIds.includes(source.id)) return []
  const own = counts === 'all' || counts === undefined || counts === (burnsOn(stage, source.id) ? 'steady' : 'flash')
  const steadyToo = counts === 'no flash' && burnsOn(stage, source.id)
  const lamp = withModelling(counts) ? modellingPart(stage, source) : null
  return [...(own || steadyToo ? [{ share: 1, colour: source.colour }] : []), ...(lamp ? [lamp] : [])]
}

/** I lamp · t / I flash: both shine through one modifier, and all the table's light is multiplied by re-exposure later. */
function modellingPart(stage: Stage, { modelling, axialIntensity }: RigSource): Part | null {
  if (!modelling || !(axialIntensity > 0)) return null
  const factor = powerFactor(stage)
  const candelaSeconds = modellingAfter(modelling, factor) * stage.sitting.camera.shutterS
  return { share: candelaSeconds / (axialIntensity * factor), colour: modelling.colour }
}

export const withModelling = (counts: MeterCounts | undefined): boolean =>
  counts === 'modelling' || counts === 'no flash' || counts === 'all'
/** No flash is counted: the light has lux, and its f-number is that of the set shutter. */
export const isSteady = (counts: MeterCounts | undefined): boolean =>
  counts === 'steady' || counts === 'modelling' || counts === 'no flash'

/** lx·s at the document's powers, over the set shutter for what shines all along. */
export const counted = (stage: Stage, place: MeterPlace, lights: readonly PlaceLight[]): number =>
  lights.reduce(
    (sum, { source, direct, indirect }) =>
      sum + partsOf(stage, place, source).reduce((h, { share }) => h + share * (direct + (indirect ?? 0)), 0),
    0,
  )

/** cd·s/m² that a matt body sends on of what is counted: L = ρE/π, albedo and colour of the light band by band. */
export const sentOn = (stage: Stage, place: MeterPlace, lights: readonly PlaceLight[], albedo: Rgb): number =>
  lights.reduce((sum, { source, direct, indirect }) => {
    const e = direct + (indirect ?? 0)
    return partsOf(stage, place, source).reduce(
      (l, { share, colour: [r, g, b] }) =>
        l + (share * e * luminanceFromSrgb([albedo[0] * r, albedo[1] * g, albedo[2] * b])) / Math.PI,
      sum,
    )
  }, 0)

const KINDS: Readonly<Record<MeterCounts, string>> = {
  flash: 'flash only',
  steady: 'steady light only',
  modelling: 'modelling lamps only',
  'no flash': 'steady light and modelling lamps, no flash',
  all: 'flash, steady light and modelling lamps',
}

/** ', A alone, flash only': whose light, and which. */
export function countedWords(stage: Stage, { sourceIds, counts }: MeterPlace): string {
  const letters = sourceIds?.map((id) => letterOf(stage, id)) ?? []
  const whose =
    letters.length === 0 ? '' : letters.length === 1 ? `, ${letters[0]} alone` : `, ${letters.join(' and ')}`
  return `${whose}${counts ? `, ${KINDS[counts]}` : ''}`
}

export const letterOf = ({ sitting }: Stage, id: string): string =>
  sitting.sources.find((s) => s.id === id)?.letter ?? id

/** Of the modelling lamps that are counted: which are taken as is common, and which heads have none. '' where none is counted. */
export function modellingWords(stage: Stage, { sourceIds, counts }: MeterPlace): string {
  if (!withModelling(counts)) return ''
  const heads = stage.table.sources.filter(({ id }) => (!sourceIds || sourceIds.includes(id)) && !burnsOn(stage, id))
  const named = (id: string) => stage.sitting.sources.find((source) => source.id === id)!.head.modelling !== undefined
  const usual = heads.filter(({ id, modelling }) => modelling && !named(id))
  const none = heads.filter(({ modelling }) => !modelling)
  const { lamp, powerW } = lampOf(stage, usual[0])
  const list = (sources: readonly RigSource[]) => sources.map(({ letter }) => letter).join(', ')
  return [
    ...(usual.length > 0 ? [` ${list(usual)}: lamp not named, taken as ${lamp} ${figure(powerW)} W.`] : []),
    ...(none.length > 0 ? [` ${list(none)}: no modelling lamp.`] : []),
  ].join('')
}
