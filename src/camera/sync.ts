import type { Seconds } from '../photometry'

/** Where the document names none: many focal-plane shutters open wholly down to here. Common practice, no source. */
export const USUAL_SYNC_S = 1 / 200

/**
 * Share of the frame that a focal-plane shutter keeps dark to a flash. Its slit takes the sync time to cross the frame, so at a
 * shorter exposure t it is t/sync of the frame wide: 1 − t/sync stays dark, and none at t ≥ sync. Both > 0.
 */
export const darkShare = (shutter: Seconds, sync: Seconds): number => Math.max(0, 1 - shutter / sync)
