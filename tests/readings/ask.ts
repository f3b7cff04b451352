import { bodiesOf } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import { type Answer, type Goal, solve } from '../../src/readings'
import { addMeterPlace, firstSitting, type Head, type Sitting, type Source } from '../../src/sitting'
import { inputOf, lamp, stopsBetween, take } from './set'

export const fixed: Partial<Sitting> = { reExpose: 'nothing' }
const CASTER = createRayCaster([])

/** As the page asks: a caster of the solver's own, which stands for whatever was assembled last. */
const sceneOf = (sitting: Sitting) => {
  const { rig } = inputOf(sitting)
  const bodies = bodiesOf(rig)
  CASTER.update(bodies.bodies)
  return { rig, bodies, caster: CASTER }
}
export const ask = (sitting: Sitting, goal: Goal, paths = 0): Answer =>
  solve({ sitting, scene: sceneOf(sitting), again: sceneOf, paths }, goal)

export const headOf = (change: Partial<Head>): Head => ({ ...firstSitting().sources[0]!.head, ...change })
export const key = (rest: Parameters<typeof lamp>[1] & { head?: Head } = {}): Source =>
  lamp('A', { az: 40, el: 30, d: 1.5, ...rest })
export const fill = (rest: Parameters<typeof lamp>[1] = {}): Source =>
  lamp('B', { az: -10, el: 10, d: 2, role: 'fill', ...rest })
export const MAIN = 'exposure.nearCheek.disc.light'

/** A meter on the crown, disc to a source and for it alone, against the main reading, in stops. */
export function hairOver(sitting: Sitting, sourceId: string, paths = 0): number {
  const { sitting: metered, id } = addMeterPlace(sitting, {
    at: { sitterId: sitting.sitters[0]!.id, landmark: 'crown' },
    receptor: 'disc',
    facing: { sourceId },
    sourceIds: [sourceId],
  })
  const taken = take(metered, paths)
  return stopsBetween(taken.value(MAIN), taken.value(`place.${id}`))
}
