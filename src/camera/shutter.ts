import { type Seconds, type Stops, stopsBetween, stopsFromRatio } from '../photometry'

/** Engraved shutter speeds 1/n and what they stand for, 1/2^i [ISO516]. */
const SHUTTER_MARKS = [1, 2, 4, 8, 15, 30, 60, 125, 250, 500, 1000] as const

/** Exact denominator behind the i-th mark. */
export const exactDenominator = (mark: number): number => 2 ** mark
/** By how many stops more light the engraved time would pass than the exact one. */
export const shutterMarkError = (mark: number): Stops => stopsBetween(SHUTTER_MARKS[mark]!, exactDenominator(mark))

/** What another shutter time does to light that shines all along, and to a flash that is over before it closes. */
export const shutterChange = (from: Seconds, to: Seconds): { readonly ambient: Stops; readonly flash: Stops } => ({
  ambient: stopsFromRatio(to / from),
  flash: 0,
})

/** Stops by which ambient light of an EV lies below an exposure set for flash; EVs at one ISO. */
export const ambientBelowFlash = (settingEv: Stops, ambientEv: Stops): Stops => settingEv - ambientEv
