import { bodiesOf } from '../../meter'
import { type BodyCaster, createRayCaster } from '../../rays'
import { type Answer, type Goal, gridSteps, type IndirectStore, type SolveScene, solve } from '../../readings'
import type { Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import { pump } from './pump'

/** Paths at each place of a set that is tried. */
const PATHS = 256

/** Answers what is asked for. It has a caster of its own, as it tries sets that nobody else sees. */
export class AskDesk {
  private caster: BodyCaster | null = null

  /** A thousand places of the backdrop; null as soon as superseded. */
  async grid(
    sitting: Sitting,
    rigOf: (sitting: Sitting) => Rig,
    factorStops: number,
    superseded: () => boolean,
  ): Promise<Answer | null> {
    const scene = this.sceneOf(rigOf(sitting))
    const grid = await pump(gridSteps({ sitting, scene, factorStops }), superseded)
    return grid && { way: null, sentence: grid.sentence, powers: [], others: [] }
  }

  private sceneOf(rig: Rig): SolveScene {
    const bodies = bodiesOf(rig)
    if (this.caster) this.caster.update(bodies.bodies)
    else this.caster = createRayCaster(bodies.bodies)
    return { rig, bodies, caster: this.caster }
  }

  answer(sitting: Sitting, goal: Goal, rigOf: (sitting: Sitting) => Rig, indirect: IndirectStore): Answer {
    const sceneOf = (tried: Sitting): SolveScene => this.sceneOf(rigOf(tried))
    return solve({ sitting, scene: sceneOf(sitting), again: sceneOf, paths: PATHS, indirect }, goal)
  }
}
