import { type MovedInput, movedSteps, type ShiftsById } from '../../readings'
import type { Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import { pump } from './pump'
import { TriedScenes } from './tried-scenes'

/** Reads sets that are a little off. */
export class MovedDesk {
  private readonly scenes = new TriedScenes()

  /** null as soon as superseded; it looks after each set. */
  shifts(
    input: Omit<MovedInput, 'again'>,
    rigOf: (sitting: Sitting) => Rig,
    superseded: () => boolean,
  ): Promise<ShiftsById | null> {
    return pump(movedSteps({ ...input, again: (sitting) => this.scenes.of(rigOf(sitting)) }), superseded)
  }
}
