import type { IndirectLight, Receivers } from '../../bounce'
import type { Recombination } from '../../render'
import type { Rig } from '../../rig'

export interface Indirect {
  readonly lights: readonly IndirectLight[]
  readonly receivers: Receivers
}

/** What the picture goes on with as soon as it can. */
export interface Next {
  readonly rig?: Rig
  /** Of that rig: the layers in sight may have other sources. */
  readonly how?: Recombination
  readonly indirect?: Indirect
  /** Another set than the one in sight: what was begun of that is not waited for. */
  readonly isAnother?: true
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
