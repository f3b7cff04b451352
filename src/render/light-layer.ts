import { WebGLRenderTarget } from 'three'
import type { IndirectLight, Receivers } from '../bounce'
import type { Rig, RigSource } from '../rig'
import type { Vec3 } from '../space'
import { type BounceTextures, bounceTextures } from './bounce-pass'
import { FLOAT_TARGET } from './g-buffer'
import { BATCH } from './layouts'
import { newSampleTable, occludersFor, packEmitters, packOccluders, packSamples } from './pack'
import { litPoints, mayBlock, sphereAround } from './reach'
import { drawBatch } from './samples'
import type { Table } from './table'

type VirtualPoint = IndirectLight['points'][number]

/**
 * The light of one source over a pixel grid: sums of samples, per 1 cd·s of axial intensity and in white light, so that
 * power, on/off and colour are weights of the recombination and never restart it.
 */
export class LightLayer {
  target: WebGLRenderTarget
  batches = 0
  emitters: Table
  occluders: Table
  occluderCount = 0
  /** All points of the first few batches, for their unshadowed light. */
  steady: Table | null = null
  steadyCount = 0
  bounce: BounceTextures | null = null
  points: readonly VirtualPoint[] = []
  /** Turns a bounce in the source's own colour into one in white. */
  whiteGain: Vec3 = [1, 1, 1]

  constructor(
    width: number,
    height: number,
    public source: RigSource,
    rig: Rig,
    seen: readonly Vec3[],
  ) {
    this.target = new WebGLRenderTarget(width, height, FLOAT_TARGET)
    this.emitters = packEmitters(source)
    this.occluders = packOccluders([])
    this.setOccluders(rig, seen)
  }

  get samples(): number {
    return this.batches * BATCH
  }

  /** New geometry of the source itself or of what may stand in its light. */
  restart(source: RigSource, rig: Rig, seen: readonly Vec3[]): void {
    this.source = source
    this.batches = 0
    this.emitters.dispose()
    this.emitters = packEmitters(source)
    this.setOccluders(rig, seen)
  }

  private setOccluders(rig: Rig, seen: readonly Vec3[]): void {
    const lit = litPoints(this.source)
    const occluders = occludersFor(rig, this.source).filter((occluder) => mayBlock(sphereAround(occluder), lit, seen))
    this.occluders.dispose()
    this.occluders = packOccluders(occluders)
    this.occluderCount = occluders.length
  }

  prepareSteady(batches: number, seed: number): void {
    this.steady?.dispose()
    this.steady = batches > 0 ? newSampleTable(batches * BATCH) : null
    const points = Array.from({ length: batches }, (_, batch) => drawBatch(this.source, batch, seed)).flat()
    if (this.steady) packSamples(this.steady, points, null)
    this.steadyCount = points.length
  }

  setBounce(light: IndirectLight | null, receivers: Receivers, rig: Rig): void {
    this.disposeBounce()
    const { colour } = this.source
    this.whiteGain = [inverse(colour[0]), inverse(colour[1]), inverse(colour[2])]
    this.bounce = light && bounceTextures(light, receivers, rig, this.whiteGain)
    this.points = light?.points ?? []
  }

  private disposeBounce(): void {
    this.bounce?.vertices.dispose()
    this.bounce?.patches.dispose()
    this.bounce = null
  }

  dispose(): void {
    this.target.dispose()
    this.emitters.dispose()
    this.occluders.dispose()
    this.steady?.dispose()
    this.disposeBounce()
  }
}

/** A band that the source does not emit has no bounce either: its gain does not matter. */
const inverse = (value: number): number => (value > 0 ? 1 / value : 0)
