import type { Reading } from '../../readings'
import type { Sitting } from '../../sitting'
import type { FileOrder } from '../desks/protocol'
import type { LengthUnits } from '../values'

/** To the desk of the contact sheet: files, then rows of variants; the newest row wins. */
export type ContactOrder =
  | FileOrder
  | {
      readonly kind: 'row'
      readonly run: number
      readonly sittings: readonly Sitting[]
      /** Of a picture, device pixels; its height is the frame's. */
      readonly width: number
      readonly units: LengthUnits
      /** Whose exposure all have, by its place in the list; null: each its own. */
      readonly exposedBy: number | null
    }

/** From it, variant by variant: first roughly, then finished. */
export type ContactAnswer =
  | {
      readonly kind: 'sketch'
      readonly run: number
      readonly index: number
      readonly bitmap: ImageBitmap
      readonly finished: boolean
    }
  | {
      readonly kind: 'read'
      readonly run: number
      readonly index: number
      readonly readings: readonly Reading[]
      readonly settled: boolean
    }
  /** What is missing, in words: there are no pictures, the numbers come. */
  | { readonly kind: 'failed'; readonly words: string }
