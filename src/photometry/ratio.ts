import { ratioFromStops, stopsFromRatio } from './stops'
import type { Stops } from './units'

/**
 * Lighting ratio R:1, highlight to shadow, where the fill reaches both cheeks and the key one of them:
 * R = (key + fill)/fill. The other habit names key:fill alone. Both occur in handbooks; so a ratio is never shown
 * without its name.
 */
export const highlightRatioFromKeyOverFill = (keyOverFill: Stops): number => ratioFromStops(keyOverFill) + 1
export const keyOverFillFromHighlightRatio = (ratio: number): Stops => stopsFromRatio(ratio - 1)
export const keyRatioFromKeyOverFill = (keyOverFill: Stops): number => ratioFromStops(keyOverFill)
