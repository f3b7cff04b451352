import type { Goal } from '../readings'
import type { Sitting, VariantRow } from '../sitting'
import type { GridGoal } from './desks/protocol'

export interface Wipe {
  /** The takes left and right of the divider, by name. */
  readonly first: string
  readonly second: string
  /** What goes right of the divider once there is a still of the first, which is shown until then; null: it is there. */
  readonly waiting: Sitting | null
  /** Where the divider stands, percent of the picture's width. */
  readonly at: number
  /** The set as it was, which comes back when the comparison ends; null: what is right of the divider stays. */
  readonly before: Sitting | null
  /** Samples that the still of the first must have before the second is drawn again. */
  readonly least: number
}

export interface Judging {
  readonly map: boolean
  readonly clips: boolean
}

export interface Contact {
  readonly row: VariantRow
  readonly equal: 'exposure' | 'power'
}

/** A question to the solver, as it was worded. */
export interface Asked {
  readonly words: string
  readonly goal: Goal | GridGoal
}
