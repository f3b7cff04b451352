import type { Rig, RigSource } from '../rig'
import type { RayCaster, Vec3 } from '../space'
import type { RigBodies } from './bodies'

/** All that a reading looks at. The caster was built over bodies.bodies, in that order. */
export interface MeterScene {
  readonly rig: Rig
  readonly bodies: RigBodies
  readonly caster: RayCaster
}

/** Where a receptor is held and where its axis points: world metres, unit normal. */
export interface Probe {
  readonly point: Vec3
  readonly normal: Vec3
  /** What of a sitter lies nearer than this is behind the meter's own casing and sends nothing back, metres; left out: 0. */
  readonly casingM?: number
}

export const litSources = (rig: Rig): readonly RigSource[] => rig.sources.filter((source) => source.on)

const NONE: ReadonlySet<number> = new Set()
export const ownGear = (scene: MeterScene, sourceId: string): ReadonlySet<number> =>
  scene.bodies.gearOf.get(sourceId) ?? NONE
