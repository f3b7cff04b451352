import type { Plate } from '../../camera'
import type { Look } from '../../rig'
import type { Sitting } from '../../sitting'
import type { PictureState } from '../derived'
import type { FileOrder, ShownExposure } from '../desks/protocol'
import type { Size } from './types'

/** How the layers are weighed: no rendering. null: nothing is read yet, and all stays as set. */
export interface Weighing {
  /** The page's count of these. */
  readonly count: number
  /** The page's count of sets: of that whose exposure was read last. */
  readonly set: number
  readonly exposure: ShownExposure | null
  /** Id of the only source whose light is shown; null: all. */
  readonly solo: string | null
  /** What is out of focus is blurred. */
  readonly blurred: boolean
  /** By the modelling lamps. */
  readonly byModelling: boolean
}

/** From the page to the desk that draws. */
export type PictureOrder =
  | FileOrder
  /** The canvas of the page, now the desk's own; and when the page's own time began. */
  | { readonly kind: 'open'; readonly canvas: OffscreenCanvas; readonly size: Size; readonly pageOriginMs: number }
  | { readonly kind: 'size'; readonly size: Size }
  /** Where bounced light comes from (desks/protocol.ts, IndirectNews). */
  | { readonly kind: 'light'; readonly port: MessagePort }
  /** What is to be drawn; the newest wins. turn: the page's count of these; set: that of sets (desks/another-set). */
  | {
      readonly kind: 'sitting'
      readonly turn: number
      readonly set: number
      readonly sitting: Sitting
      readonly look: Look
    }
  | { readonly kind: 'weigh'; readonly how: Weighing }
  /** Whether nobody sees the picture: it rests. */
  | { readonly kind: 'rest'; readonly on: boolean }
  /** Whether the exposure is judged, or an edge measured: plates are wanted. */
  | { readonly kind: 'judge'; readonly on: boolean }

/** A picture that the card has drawn and the canvas shows. */
export interface Shown {
  /** Of the sitting that it shows, and of how its layers are weighed. */
  readonly turn: number
  readonly weighing: number
  readonly samples: number
  /** When it was handed to the card, and when the card was found to have drawn it; ms of the page's time, for tests/bench. */
  readonly summedAtMs: number
  readonly drawnAtMs: number
}

/** The picture in sight by its light. */
export interface ShownPlate extends Plate {
  /** What exposed it, in 1/(cd·s/m²). */
  readonly scale: number
}

/** From the desk that draws. */
export type PictureAnswer =
  | { readonly kind: 'state'; readonly state: PictureState }
  | { readonly kind: 'shown'; readonly shown: Shown }
  /** A copy of what the canvas shows, at most once a second and always of the last. */
  | { readonly kind: 'copy'; readonly shown: Shown; readonly bitmap: ImageBitmap }
  /** While the exposure is judged or an edge measured: at most once a second, and always of the last. turn: of its sitting. */
  | { readonly kind: 'plate'; readonly plate: ShownPlate; readonly turn: number }
