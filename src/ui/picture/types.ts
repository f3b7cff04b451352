import type { IndirectLight, Receivers } from '../../bounce'
import type { Recombination } from '../../render'
import type { Rig } from '../../rig'

export interface Indirect {
  readonly lights: readonly IndirectLight[]
  readonly receivers: Receivers
}

export interface Size {
  readonly width: number
  readonly height: number
}

/** A picture that the card has drawn and the canvas shows; times of this thread, ms. */
export interface InSight {
  readonly rig: Rig
  readonly how: Recombination
  readonly samples: number
  readonly summedAtMs: number
  readonly drawnAtMs: number
}
