import type { IndirectLight, Receivers } from '../../bounce'
import type { WornName } from '../../figure'
import type {
  Caution,
  Goal,
  HiddenMeters,
  OutlineLine,
  Reading,
  SeenRoom,
  ShiftsById,
  Answer as Solved,
} from '../../readings'
import type { Sitting } from '../../sitting'
import type { LengthUnits } from '../values'

/** To both desks: what stands in the files that the page has fetched. */
export type FileOrder =
  | { readonly kind: 'figure'; readonly bytes: Uint8Array }
  /** A part that is worn on the head, before the first sitting that needs it. */
  | { readonly kind: 'worn'; readonly name: WornName; readonly bytes: Uint8Array }

/** A thousand meter readings of the backdrop in place of an answer. */
export type GridGoal = { readonly kind: 'grid' }

/** To the desk that reads: the sitter's file once, then every sitting that is on the table. The newest wins. */
export type Order =
  | FileOrder
  /** Where bounced light goes. */
  /** null: no picture comes any more, and nobody asks for its bounced light. */
  | { readonly kind: 'picture'; readonly port: MessagePort | null }
  /** turn: the page's count of these; set: that of sets (another-set). */
  | {
      readonly kind: 'sitting'
      readonly turn: number
      readonly set: number
      readonly sitting: Sitting
      readonly units: LengthUnits
    }
  /** The place from which the half-room is to be seen, by its id; null: it isn't. */
  | { readonly kind: 'sees'; readonly place: string | null }
  /** Whether the shadow edge on the face is wanted. */
  | { readonly kind: 'outline'; readonly on: boolean }
  /** Whether it is wanted what a set that is a little off would read. */
  | { readonly kind: 'moved'; readonly on: boolean }
  /** What is asked for, of the sitting that was sent last. */
  | { readonly kind: 'ask'; readonly turn: number; readonly goal: Goal | GridGoal }

/** How the document's powers are carried to what is shown; see readings. */
export interface ShownExposure {
  /** Stops by which all sources together are raised. */
  readonly factorStops: number
  readonly fNumber: number
  readonly perSourceStops: Readonly<Record<string, number>>
}

/** From desk to desk: bounced light for the picture. */
export interface IndirectNews {
  /** In which it was bounced, by the page's count of sets. */
  readonly set: number
  /** null: as sent before, so that the picture can tell what did not change. */
  readonly receivers: Receivers | null
  readonly lights: readonly { readonly sourceId: string; readonly light: IndirectLight | null }[]
}

/** From the desk that reads. */
export type Answer =
  | {
      readonly kind: 'read'
      readonly turn: number
      readonly set: number
      readonly readings: readonly Reading[]
      readonly cautions: readonly Caution[]
      readonly exposure: ShownExposure
      readonly hidden: HiddenMeters
      readonly settled: boolean
    }
  | { readonly kind: 'sees'; readonly place: string; readonly room: SeenRoom; readonly settled: boolean }
  | { readonly kind: 'outline'; readonly lines: readonly OutlineLine[] }
  /** A string: why there is no answer. */
  | { readonly kind: 'solved'; readonly turn: number; readonly answer: Solved | string }
  | { readonly kind: 'moved'; readonly turn: number; readonly shifts: ShiftsById }
  | { readonly kind: 'fault'; readonly words: string }
