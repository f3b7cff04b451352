import type { Lux } from './units'

/** Mean diameter over mean distance, 1.3927 by 149.6 million km (SHA-SUN-RATIO of the check values): 1/107.4, which is 0.533°. */
export const SUN_WIDTH_PER_DISTANCE = 1.3927e6 / 1.496e8

/** On a surface that faces it outside of the air, from memory: no sun on the ground is brighter. */
export const SUN_MOST: Lux = 133_000
