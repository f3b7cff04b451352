import type { FixedPoints } from '../paper'
import type { Words } from '../print'
import type { Caution, Exposure, Reading } from '../readings'
import type { Rig } from '../rig'
import type { Sitting } from '../sitting'

/** What a sheet is made from: a sitting, its rig, and what was read of it. */
export interface SheetInput {
  readonly sitting: Sitting
  readonly rig: Rig
  readonly readings: readonly Reading[]
  readonly cautions: readonly Caution[]
  readonly exposure: Exposure
}

/** One line of a card: 'centre', '1.80 m, 5′ 11″'. */
export interface Fact {
  readonly name: string
  readonly words: Words
}

export interface Card {
  readonly title: string
  readonly facts: readonly Fact[]
}

/** A place on the floor by tape. Metres; off: from the line through X and Z, positive to camera right. */
export interface TapeRow {
  readonly id: string
  readonly name: string
  readonly at: readonly [number, number]
  readonly fromXM: number
  readonly fromZM: number
  readonly offM: number
  /** Figures after the point that put it back within a centimetre: 2, or 3 where the tapes cross at a flat angle. */
  readonly digits: 2 | 3
}

export interface MeterRow {
  readonly id: string
  readonly name: string
  /** As the meter shows it; '–' where there is no light. */
  readonly plan: string
  /** What is planned: an f-number as the meter shows it, or stops against the near cheek; null: no light. */
  readonly value: number | null
  readonly unit: 'f-number' | 'stop'
  readonly sourceId: string | null
}

export interface KitItem {
  readonly id: string
  readonly what: string
  readonly count: number
  /** Of one, kilograms; null: not known. */
  readonly massKg: number | null
}

export interface Step {
  readonly what: string
  readonly minutes: number
  /** What to look at before going on. */
  readonly test: string
}

/** All that goes to the studio, as plain values; lengths in metres. */
export interface SetUpSheet {
  readonly title: string
  /** The look in a line. */
  readonly look: string
  /** Tells this state of the sitting from any other: eight hexadecimal figures. */
  readonly version: string
  readonly note: string
  readonly camera: readonly Fact[]
  readonly sources: readonly Card[]
  /** Sitters, panels, backdrop, room. */
  readonly set: readonly Card[]
  readonly fixed: FixedPoints
  readonly fixedWords: string
  readonly tape: readonly TapeRow[]
  /** From the nearest point of the rim to the near cheek. */
  readonly rims: readonly { readonly id: string; readonly name: string; readonly m: number }[]
  readonly meters: readonly MeterRow[]
  /** How sure they are, in words after a title. */
  readonly meterBand: string
  /** Backdrop, three rows of three from the upper left; null: none. */
  readonly backdrop: readonly (readonly MeterRow[])[] | null
  readonly kit: readonly KitItem[]
  readonly kitWords: string
  readonly order: readonly Step[]
  readonly ifThen: readonly string[]
  readonly sensitivities: readonly string[]
  /** Of this set. */
  readonly watch: readonly string[]
  /** Of any set. */
  readonly cautions: Words
}
