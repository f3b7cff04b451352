import type { Emission, Rgb } from '../photometry'
import type { Frame } from '../space'
import type { GearSolid } from './solids'

/** What the document stores for a modifier: a kind from the registry and its fields (lengths in metres, names ending in M). */
export type Modifier = { readonly kind: string } & Readonly<Record<string, number | string | boolean>>

/** One row of a kind's field table: validation, controls and docs read it. */
export type Field =
  | {
      readonly id: string
      readonly label: string
      readonly type: 'number'
      readonly unit: string
      readonly range: readonly [number, number]
      readonly usual: readonly [number, number]
      readonly default: number
      readonly step: number
      /** Id of the field that takes this one along in proportion when it is changed. */
      readonly follows?: string
      /** May be left out of a document: its default is meant then. */
      readonly optional?: true
    }
  | {
      readonly id: string
      readonly label: string
      readonly type: 'choice'
      readonly choices: readonly string[]
      readonly default: string
      /** As above. */
      readonly optional?: true
    }
  /** Words that a file brings, at most so many characters: a name, or a table that the kind's check reads. */
  | {
      readonly id: string
      readonly label: string
      readonly type: 'text'
      readonly longest: number
      readonly default: string
      /** As above. */
      readonly optional?: true
    }

/** A kind of source: one file, one field table, one registry line. */
export interface ModifierKind {
  readonly id: string
  readonly label: string
  readonly fields: readonly Field[]
  /** Left out: on a stand of its own. */
  readonly onCamera?: 'in the shoe' | 'round the lens'
  /** Shines through the whole exposure: its light is set by its own fields and by the exposure time, not by a flash head. */
  readonly burnsOn?: true
  /**
   * No thing of the set. far: only its direction counts, from its place in the document to its aim, and its face lies so many
   * metres from there. around: the sky, whose zenith is so high over the set's middle; its place does not count. Left out: it
   * stands where the document has it.
   */
  readonly remote?: { readonly kind: 'far' | 'around'; readonly distanceM: number }
  /** Of one with a lamp on a shaft: what its place there does. */
  readonly shaft?: (modifier: Modifier) => Shaft
  /** Everything in the source's frame: origin at the centre of the lit face, +z to the aim. */
  build(modifier: Modifier): BuiltModifier
  /** What one field's range can't say: fields that don't go together. Called once every field is in range. */
  readonly check?: (modifier: Modifier, path: string) => readonly Problem[]
}

/** The lamp of an umbrella on its shaft; metres from the apex. */
export interface Shaft {
  readonly lampM: number
  /** Where the beam, to a tenth, just reaches the rim. */
  readonly fillingM: number
  /** Of what the beam reaches. */
  readonly litDiameterM: number
  readonly openDiameterM: number
  /** Of the lamp's light that goes past the canopy, 0 to 1. */
  readonly spilledShare: number
  /** Where a silver canopy makes the narrowest beam; null: it is white. */
  readonly focusM: number | null
}

/** For the photographer: where, what was expected with its unit, what was found, what to do. */
export interface Problem {
  readonly path: string
  readonly expected: string
  readonly got: string
  readonly advice: string
}

export interface BuiltModifier {
  readonly emitters: readonly {
    readonly id: string
    readonly part: 'front' | 'back' | 'spill'
    readonly frame: Frame
    readonly emission: Emission
    /** The side of a solid, by its number in the list, on which this lit surface lies: how it looks when it is off. Left out: of light alone. */
    readonly cloth?: { readonly solid: number; readonly side: 'front' | 'back' }
  }[]
  readonly solids: readonly GearSolid[]
  readonly litFace: { readonly shape: 'disc' | 'rectangle'; readonly widthM: number; readonly heightM: number }
  /**
   * Of a source that burns on: the axial intensity that its emission is counted in, cd; of one that is far off, lx
   * at its aim; of a sky, cd/m² at its zenith.
   * Left out: a flash, counted in that of its head in the 65° dish.
   */
  readonly steadyCd?: number
  /** Colour shift of the cloth, luminance 1. */
  readonly tint: Rgb
  /** What the words call it: 'white umbrella 0.95 m'. */
  readonly name: string
  /** What it is lined with, in words; left out: its name tells, or it is not lined. */
  readonly lining?: string
}
