import { bodiesOf, type MeterScene, type RigBodies } from '../../meter'
import { type BodyCaster, createRayCaster } from '../../rays'
import {
  type HiddenMeters,
  hiddenMeters,
  type IndirectStore,
  type ReadingsOutput,
  settledSteps,
  takeReadings,
} from '../../readings'
import type { Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import type { LengthUnits } from '../values'
import { pump } from './pump'

export interface Read extends Pick<ReadingsOutput, 'readings' | 'cautions' | 'exposure'> {
  readonly hidden: HiddenMeters
}

const shown = ({ readings, cautions, exposure }: ReadingsOutput, hidden: HiddenMeters): Read => ({
  readings,
  cautions,
  exposure,
  hidden,
})

/** Reads the light of rigs that follow each other, on the full meshes. */
export class ReadingDesk {
  private caster: BodyCaster | null = null
  private indirect: IndirectStore = new Map()
  /** What it was traced in. */
  private tracedIn: Sitting | null = null

  /** Bounced light of one sitting as it was last traced; none where another was. */
  traced(sitting: Sitting): IndirectStore {
    return this.tracedIn === sitting ? this.indirect : new Map()
  }

  /** At once: direct light anew, bounced light as it was last traced. */
  coarse(sitting: Sitting, rig: Rig, units: LengthUnits): Read {
    const bodies = this.aim(rig)
    const output = takeReadings({ sitting, rig, caster: this.caster!, bodies, units, indirect: this.indirect })
    return shown(output, hiddenMeters({ rig, bodies, caster: this.caster! }, sitting.meterPlaces))
  }

  /** Bounced light traced anew, in passes; `partial` gets each but the last. null as soon as superseded, within a pass too. */
  async settled(
    sitting: Sitting,
    rig: Rig,
    units: LengthUnits,
    superseded: () => boolean,
    partial: (read: Read) => void,
    paths?: number,
  ): Promise<Read | null> {
    const bodies = this.aim(rig)
    const hidden = hiddenMeters({ rig, bodies, caster: this.caster! }, sitting.meterPlaces)
    const keep = (output: ReadingsOutput): Read => {
      this.indirect = output.indirect
      this.tracedIn = sitting
      return shown(output, hidden)
    }
    const steps = settledSteps({ sitting, rig, caster: this.caster!, bodies, units }, paths)
    const output = await pump(steps, superseded, (pass) => partial(keep(pass)))
    return output && keep(output)
  }

  /** The rig for whoever casts rays of their own; good until the desk takes up another rig. */
  sceneOf(rig: Rig): MeterScene {
    const bodies = this.aim(rig)
    return { rig, bodies, caster: this.caster! }
  }

  private aim(rig: Rig): RigBodies {
    const bodies = bodiesOf(rig)
    if (this.caster) this.caster.update(bodies.bodies)
    else this.caster = createRayCaster(bodies.bodies)
    return bodies
  }
}
