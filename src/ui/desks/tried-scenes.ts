import { bodiesOf } from '../../meter'
import { type BodyCaster, createRayCaster } from '../../rays'
import type { SolveScene } from '../../readings'
import type { Rig } from '../../rig'

/** Scenes of sets that are only tried, by a caster of their own: each is good until the next is made. */
export class TriedScenes {
  private caster: BodyCaster | null = null

  of(rig: Rig): SolveScene {
    const bodies = bodiesOf(rig)
    if (this.caster) this.caster.update(bodies.bodies)
    else this.caster = createRayCaster(bodies.bodies)
    return { rig, bodies, caster: this.caster }
  }
}
