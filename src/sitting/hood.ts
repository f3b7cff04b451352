import type { Hood } from './types'

/** Metres; what hoods are made like: common practice, no source. */
export const HOOD_RANGES = { depthM: [0.01, 0.3], diameterM: [0.03, 0.3] } as const satisfies Record<
  keyof Hood,
  readonly [number, number]
>
export const DEFAULT_HOOD: Hood = { depthM: 0.06, diameterM: 0.08 }
