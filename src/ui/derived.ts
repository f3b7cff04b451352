import { create } from 'zustand'
import type { FigureAsset } from '../figure'
import type { Answer, Caution, HiddenMeters, OutlineLine, Reading, SeenRoom, ShiftsById } from '../readings'
import { type Look, placeLandmarks, type Rig } from '../rig'
import type { PlaceLandmarks, Sitting } from '../sitting'
import type { ShownExposure } from './desks/protocol'
import { lateTwin } from './late'
import type { ShownPlate } from './picture/protocol'
import type { Asked } from './store'

/** What the worker has read of one sitting. */
export interface Read {
  /** The page's count of sittings, and that of sets. */
  readonly turn: number
  readonly set: number
  readonly readings: readonly Reading[]
  readonly cautions: readonly Caution[]
  readonly exposure: ShownExposure
  readonly hidden: HiddenMeters
  /** False while only the coarse pass is in. */
  readonly settled: boolean
  /** Whose they are; null: of a set that had changed again by then. */
  readonly of: Sitting | null
}

interface Drawn {
  readonly samples: number
  /** With fewer pixels than the frame has, as a slow machine draws first. */
  readonly rough: boolean
  /** Root mean square error as a share of the picture's mean luminance; null: unknown yet. */
  readonly error: number | null
}

/** And what it is of; null: no longer known. */
export interface Plate extends ShownPlate {
  readonly sitting: Sitting | null
  readonly look: Look | null
}

export type PictureState =
  | { readonly kind: 'loading' }
  | ({ readonly kind: 'working' } & Drawn)
  | ({ readonly kind: 'finished' } & Drawn)
  | { readonly kind: 'lost' }
  /** What is missing, in words. */
  | { readonly kind: 'failed'; readonly missing: string }

/** Everything that follows from the document: never edited, only derived again. */
export interface Derived {
  readonly asset: FigureAsset | null
  readonly rig: Rig | null
  readonly read: Read | null
  readonly picture: PictureState
  /** The light of the picture in sight, as last counted out; null: the exposure is not judged, or not yet. */
  readonly plate: Plate | null
  /** The half-room before a place of the skin, as last looked at; null: not yet. */
  readonly sees: { readonly place: string; readonly room: SeenRoom; readonly settled: boolean } | null
  /** The shadow edge on the face; null: not asked for, or not yet. */
  readonly outline: readonly OutlineLine[] | null
  /** The answer to what was asked last, or why there is none; it holds while that is still asked. */
  readonly solved: { readonly asked: Asked; readonly answer: Answer | string } | null
  /** What the shown set would read a little off; null: not asked for, or not yet. */
  readonly shifts: ShiftsById | null
  /** What went wrong in loading or reading, in words; the page stays usable. */
  readonly fault: string | null
}

export const useDerivedNow = create<Derived>(() => ({
  asset: null,
  rig: null,
  read: null,
  picture: { kind: 'loading' },
  plate: null,
  sees: null,
  outline: null,
  solved: null,
  shifts: null,
  fault: null,
}))

/** The same as it is shown beside a drawing that is under the hand (late.ts). */
export const useDerived = lateTwin(useDerivedNow)

export const setDerived = (change: Partial<Derived>): void => useDerivedNow.setState(change)

const marksOf = new WeakMap<object, PlaceLandmarks>()

function marksIn({ rig }: Derived): PlaceLandmarks | null {
  const figure = rig?.figures[0]
  if (!figure) return null
  const known = marksOf.get(figure) ?? placeLandmarks(figure)
  marksOf.set(figure, known)
  return known
}

/** Where places of sources are measured from; null until the sitter is loaded. */
export const useMarks = (): PlaceLandmarks | null => useDerived(marksIn)
/** The same for the drawings. */
export const useMarksNow = (): PlaceLandmarks | null => useDerivedNow(marksIn)
/** The same at this moment, for what an edit does. */
export const marksNow = (): PlaceLandmarks | null => marksIn(useDerivedNow.getState())
