import { modifierKind } from '../gear'
import type { Stage } from './stage'

/** Whether a source shines all along, as daylight and panels do, and no flash. */
export const burnsOn = ({ sitting }: Pick<Stage, 'sitting'>, id: string): boolean =>
  modifierKind(sitting.sources.find((source) => source.id === id)!.modifier.kind).burnsOn === true
