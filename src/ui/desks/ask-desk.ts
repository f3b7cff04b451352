import { type Answer, type Goal, gridSteps, type IndirectStore, type SolveScene, solve } from '../../readings'
import type { Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import { pump } from './pump'
import { TriedScenes } from './tried-scenes'

/** Paths at each place of a set that is tried. */
const PATHS = 256

/** Answers what is asked for. */
export class AskDesk {
  private readonly scenes = new TriedScenes()

  /** A thousand places of the backdrop; null as soon as superseded. */
  async grid(
    sitting: Sitting,
    rigOf: (sitting: Sitting) => Rig,
    factorStops: number,
    superseded: () => boolean,
  ): Promise<Answer | null> {
    const scene = this.scenes.of(rigOf(sitting))
    const grid = await pump(gridSteps({ sitting, scene, factorStops }), superseded)
    return grid && { way: null, sentence: grid.sentence, powers: [], others: [] }
  }

  answer(sitting: Sitting, goal: Goal, rigOf: (sitting: Sitting) => Rig, indirect: IndirectStore): Answer {
    const sceneOf = (tried: Sitting): SolveScene => this.scenes.of(rigOf(tried))
    return solve({ sitting, scene: sceneOf(sitting), again: sceneOf, paths: PATHS, indirect }, goal)
  }
}
