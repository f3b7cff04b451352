import type { Vec3 } from '../space'

/** One number a photographer can use, with all that is needed to believe it. */
export interface Reading {
  /** Stable, dotted: 'exposure.nearCheek.disc.light', 'source.A.azimuthFromLens', … */
  readonly id: string
  /** null where the quantity does not exist in this set; the sentence then says why. */
  readonly value: number | string | null
  /** SI or trade unit, '' for words. */
  readonly unit: string
  /** As shown: rounded as the trade does, without unit: 'f/8 + 0.6', '24', '−3.0'. */
  readonly text: string
  readonly band: Band | null
  readonly place: { readonly name: string; readonly at: Vec3 | null }
  /** Continues the number and names the cause. */
  readonly sentence: string
  readonly why: { readonly formula: string; readonly filled: string; readonly source: string }
  readonly sourceId: string | null
  /** Of a meter's reading: the same light in the camera's thirds, as EV at the set ISO, and in lx·s. */
  readonly also?: MeterScales | undefined
  /** Of a place of the backdrop: the sRGB code that it gets, 0 to 255, not rounded. */
  readonly code?: number | undefined
  /** Of an edge too wide for a full shadow: its full width all the same, square to the light, millimetres. */
  readonly edgeMm?: number | undefined
  /** Of the light that goes into the room: of each lx·s on the face, lm·s; so in square metres. */
  readonly roomM2?: number | undefined
  /** Of a shadow's depth: the share of its source that is hidden at most. */
  readonly hidden?: number | undefined
  /** Of an edge: how wide its source appears square across it, from what throws it, degrees. */
  readonly edgeDeg?: number | undefined
}

export interface MeterScales {
  readonly thirds: string
  readonly ev: number
  /** Over the burst; of what shines all along, over the set shutter. */
  readonly luxSeconds: number
  /** Where no flash is counted. */
  readonly lux?: number
}

export interface Band {
  readonly plusMinus: number
  readonly unit: string
  readonly basis: 'guessed' | 'published' | 'measured'
}

/** A caution with the place where it stands. */
export interface Caution {
  readonly id: string
  readonly at: Vec3 | null
  readonly sentence: string
}
