/** Share of each side while a hand moves something and time is short: a ninth of the pixels. */
export const COARSE = 1 / 3
/** A batch of sixteen samples that takes longer than this can't follow the hand, ms. */
const FOLLOWS_MS = 250
/** The longest batch that a slow machine is asked for when it is left alone, ms. */
const PATIENT_MS = 1500
/** The hand has to rest this long before a slow machine draws finer, ms; and the coarse picture to have this many samples. */
const REST_MS = 600
const COARSE_SAMPLES = 64

export interface GrainState {
  readonly share: number
  /** Of a batch at COARSE, as last measured, ms; null: not yet. */
  readonly coarseBatchMs: number | null
  readonly samples: number
  readonly restedMs: number
}

const fullBatchMs = (coarseBatchMs: number): number => coarseBatchMs / COARSE ** 2

/** The finest share whose batch a slow machine still finishes in time; 1 on a graphics card. */
function finest(coarseBatchMs: number): number {
  const share = Math.sqrt(PATIENT_MS / fullBatchMs(coarseBatchMs))
  return share >= 1 ? 1 : Math.max(COARSE, Math.floor(share * 8) / 8)
}

/** The share to go on with. A machine that follows the hand at full size is never asked for less. */
export function nextShare({ share, coarseBatchMs, samples, restedMs }: GrainState): number {
  if (share > COARSE || coarseBatchMs === null) return share
  if (fullBatchMs(coarseBatchMs) <= FOLLOWS_MS) return 1
  return samples >= COARSE_SAMPLES && restedMs >= REST_MS ? finest(coarseBatchMs) : share
}

/** The share after a change that starts the picture again. */
export const shareAfterChange = (share: number, coarseBatchMs: number | null): number =>
  coarseBatchMs !== null && fullBatchMs(coarseBatchMs) > FOLLOWS_MS ? COARSE : share
