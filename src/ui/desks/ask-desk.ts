import { bodiesOf } from '../../meter'
import { type BodyCaster, createRayCaster } from '../../rays'
import { type Answer, type Goal, type IndirectStore, type SolveScene, solve } from '../../readings'
import type { Rig } from '../../rig'
import type { Sitting } from '../../sitting'

/** Paths at each place of a set that is tried. */
const PATHS = 256

/** Answers what is asked for. It has a caster of its own, as it tries sets that nobody else sees. */
export class AskDesk {
  private caster: BodyCaster | null = null

  answer(sitting: Sitting, goal: Goal, rigOf: (sitting: Sitting) => Rig, indirect: IndirectStore): Answer {
    const sceneOf = (tried: Sitting): SolveScene => {
      const rig = rigOf(tried)
      const bodies = bodiesOf(rig)
      if (this.caster) this.caster.update(bodies.bodies)
      else this.caster = createRayCaster(bodies.bodies)
      return { rig, bodies, caster: this.caster }
    }
    return solve({ sitting, scene: sceneOf(sitting), again: sceneOf, paths: PATHS, indirect }, goal)
  }
}
