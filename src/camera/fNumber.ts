/**
 * Names of apertures. The exact series is N = 2^(i/2) for full stops and 2^(i/6) for thirds; what is engraved is
 * rounded, by habit and not by one rule (5.66 is 5.6, 22.6 is 22). Thirds from ISO 517 and common practice [ISO517].
 */
const FULL_STOPS = [0.5, 0.7, 1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22, 32, 45, 64, 90, 128] as const
const FIRST_FULL_STOP = -2

/** Marks of a camera's dial from f/1, a third apart: THIRDS[i] stands for 2^(i/6). */
export const THIRD_STOP_MARKS = [
  1, 1.1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10, 11, 13, 14, 16, 18, 20,
  22, 25, 29, 32, 36, 40, 45, 51, 57, 64,
] as const

/** Exact f-number behind the i-th third from f/1. */
export const fNumberFromThird = (third: number): number => 2 ** (third / 6)

/** A reading as meters show it: the full stop below it and tenths of a stop, f/8 + 0.6. */
export interface FStopReading {
  readonly mark: number
  readonly tenths: number
}

/** Whole stops and tenths of an f-number from 0.5 to 128·2^½; null outside, where no meter has a mark. */
function fStopReading(fNumber: number): FStopReading | null {
  const tenthsFromOne = Math.round(20 * Math.log2(fNumber))
  const stop = Math.floor(tenthsFromOne / 10)
  const mark = FULL_STOPS[stop - FIRST_FULL_STOP]
  return mark === undefined ? null : { mark, tenths: tenthsFromOne - 10 * stop }
}

/** 'f/8 + 0.6'; without tenths 'f/8'. Beyond the marks it says on which side; no light at all is 'no light'. */
export function formatFNumber(fNumber: number): string {
  if (!(fNumber > 0)) return 'no light'
  const reading = fStopReading(fNumber)
  if (!reading) return fNumber < 1 ? 'under f/0.5' : 'over f/128'
  return reading.tenths === 0 ? `f/${reading.mark}` : `f/${reading.mark} + 0.${reading.tenths}`
}

/** The nearest third on the camera's dial, f/1 to f/64; beyond either end null. */
export function nearestThird(fNumber: number): number | null {
  return THIRD_STOP_MARKS[Math.round(6 * Math.log2(fNumber))] ?? null
}

/** 'f/9'; where the dial ends, the side on which it does. */
export function formatNearestThird(fNumber: number): string {
  if (!(fNumber > 0)) return 'no light'
  const mark = nearestThird(fNumber)
  return mark === null ? (fNumber < 1 ? 'under f/1' : 'over f/64') : `f/${mark}`
}

/** Stops by which a mark lets in less light than the exact f-number it stands for. */
export const markError = (mark: number, exact: number): number => 2 * Math.log2(mark / exact)
