/** Share of each side while a hand moves something and time is short: a ninth of the pixels. */
export const COARSE = 1 / 3
/** A batch of sixteen samples that takes longer than this can't follow the hand, ms. */
const FOLLOWS_MS = 250
/** A machine that finishes a batch of the full picture in this time goes there in one step, ms. */
const ONE_STEP_MS = 1500
/**
 * Left alone, a slower one goes up by steps, each after so many samples, as long as a batch takes no longer than this, ms:
 * the work is cut into slices, so a change is heard of all the while, and the coarser picture stays in sight until then.
 */
const STEPS = [COARSE, 2 / 3, 1]
const PATIENT_MS = 12_000
/** The hand has to rest this long before a slow machine draws finer, ms; and the picture to have this many samples. */
const REST_MS = 600
const ENOUGH_SAMPLES = 64

export interface GrainState {
  readonly share: number
  /** Of a batch at COARSE, as last measured, ms; null: not yet. */
  readonly coarseBatchMs: number | null
  /** Of a batch at the present share, ms. */
  readonly batchMs: number
  readonly samples: number
  readonly restedMs: number
}

const fullBatchMs = (coarseBatchMs: number): number => coarseBatchMs / COARSE ** 2

/** The share to go on with. A machine that follows the hand at full size is never asked for less. */
export function nextShare({ share, coarseBatchMs, batchMs, samples, restedMs }: GrainState): number {
  if (share === 1 || coarseBatchMs === null) return share
  if (share === COARSE && fullBatchMs(coarseBatchMs) <= FOLLOWS_MS) return 1
  if (samples < ENOUGH_SAMPLES || restedMs < REST_MS || batchMs > PATIENT_MS) return share
  if (fullBatchMs(coarseBatchMs) <= ONE_STEP_MS) return 1
  return STEPS.find((step) => step > share) ?? 1
}

/** The share after a change that starts the picture again. */
export const shareAfterChange = (share: number, coarseBatchMs: number | null): number =>
  coarseBatchMs !== null && fullBatchMs(coarseBatchMs) > FOLLOWS_MS ? COARSE : share
