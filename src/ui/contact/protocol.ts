import type { LessonLook } from '../../lesson'
import type { EdgeRays, Reading } from '../../readings'
import type { Sitting } from '../../sitting'
import type { FileOrder, ShownExposure } from '../desks/protocol'
import type { EdgeSpan } from '../looks/edge-span'
import type { ShownPlate } from '../picture/protocol'
import type { LengthUnits } from '../values'

/** To the desk of the contact sheet: files, then rows of variants; the newest row wins. */
export type ContactOrder =
  | FileOrder
  | {
      readonly kind: 'row'
      readonly run: number
      /** One that is drawn in several looks stands here several times, as the same object. */
      readonly sittings: readonly Sitting[]
      /** Of each; null: its numbers alone. Left out: all as the camera sees them. */
      readonly looks?: readonly (LessonLook | null)[] | undefined
      /** What they are answered as; left out: their places in the list. */
      readonly places?: readonly number[] | undefined
      /** Of a picture, device pixels; its height is the frame's. */
      readonly width: number
      readonly units: LengthUnits
      /** Whose exposure all have, by its place in the list; null: each its own. */
      readonly exposedBy: number | null
      /** The numbers are read no further than a class waits for. */
      readonly quick?: boolean | undefined
      /** Each is drawn to the end as the picture is, in steps, and its light counted out. Left out: as small pictures are. */
      readonly whole?: boolean | undefined
    }

/** From it, variant by variant: first roughly, then finished. */
export type ContactAnswer =
  | {
      readonly kind: 'sketch'
      readonly run: number
      readonly index: number
      readonly bitmap: ImageBitmap
      /** Of each source. */
      readonly samples: number
      readonly finished: boolean
      /** Across a crop, at the place in its middle, millimetres; null: no crop. */
      readonly widthMm: number | null
      /** Where the edge is measured in an edge crop; null: it is none. */
      readonly span: EdgeSpan | null
      /** Its light; null: not counted out. */
      readonly plate: ShownPlate | null
    }
  | {
      readonly kind: 'read'
      readonly run: number
      readonly index: number
      readonly readings: readonly Reading[]
      /** What stands in its picture, in words; null: nothing. */
      readonly inFrame: string | null
      /** How it reaches into a wall, in words; null: it does not. */
      readonly walls: string | null
      /** Its own, whatever its picture is exposed by. */
      readonly exposure: ShownExposure
      /** What makes the edge of its nose shadow; null: there is none. */
      readonly rays: EdgeRays | null
      readonly settled: boolean
    }
  /** What is missing, in words: there are no pictures, the numbers come. */
  | { readonly kind: 'failed'; readonly words: string }
