import type { Modifier } from '../gear'
import type { Calibration, Head, Stand } from '../sitting'

/** What the user owns, version 1. SI with unit suffixes; unknown fields survive at every level. Rules by number in SPEC.md. */
export interface Kit {
  readonly format: 'halfshade.kit'
  readonly version: 1
  readonly title: string
  readonly note: string
  readonly heads: readonly KitHead[]
  readonly modifiers: readonly KitModifier[]
  readonly stands: readonly KitStand[]
  readonly calibrations: readonly KitCalibration[]
  /** Below this no number in the id of a new entry: sittings may still name those that were removed. Left out: 1. */
  readonly nextNumber?: number | undefined
}

/** A lamp head as it is, whatever it is set to. */
export interface KitHead
  extends Pick<
    Head,
    | 'energyJ'
    | 'guideNumberM'
    | 'lowestStops'
    | 'stepStops'
    | 'colourTemperatureK'
    | 'dialStyle'
    | 'dialTop'
    | 'massKg'
    | 't05S'
    | 't01S'
    | 't05LowestS'
    | 't01LowestS'
    | 'modelling'
  > {
  readonly id: string
  readonly name: string
}

export interface KitModifier {
  readonly id: string
  readonly name: string
  /** With its open size. */
  readonly modifier: Modifier
  readonly massKg?: number | undefined
}

export interface KitStand extends Stand {
  readonly id: string
}

/** From one real reading of a head with a modifier of this kit. */
export interface KitCalibration extends Calibration {
  readonly id: string
  readonly headId: string
  readonly modifierId: string
}

export type KitList = 'heads' | 'modifiers' | 'stands' | 'calibrations'
