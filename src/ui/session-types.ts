import type { Goal } from '../readings'
import type { Sitting, StepWords, VariantRow } from '../sitting'
import type { GridGoal } from './desks/protocol'

/** A set that is drawn for a comparison alone, beside the set in hand; null: the set in hand itself, as it now stands. */
export type Beside = { readonly name: string; readonly sitting: Sitting } | null

/** Two sets side by side. */
export interface Pair {
  readonly left: Beside
  readonly right: Beside
  /** What the set in hand is called in it, as long as it is this one; left out: by its take, if it is one. */
  readonly inHand?: NonNullable<Beside>
}

/** Two sets in one frame: neither changes the set in hand. */
export interface Wipe extends Pair {
  /** Where the divider stands, percent of the picture's width. */
  readonly at: number
}

export interface Judging {
  readonly map: boolean
  readonly clips: boolean
}

export interface Contact {
  readonly row: VariantRow
  readonly equal: 'exposure' | 'power'
  /** The pictures show the edge of the nose's shadow instead of the whole; left out: they don't. */
  readonly enlarged?: boolean
}

/** A question to the solver, as it was worded. */
export interface Asked {
  readonly words: string
  readonly goal: Goal | GridGoal
}

/** The name of a step: given, or told from the set before the step and after it. */
export type StepName = string | StepWords | ((before: Sitting, after: Sitting) => StepWords)
