/** Work in one frame, ms: orders are heard between two; larger pieces waste less; a slow machine's run behind a fence. */
export const BUDGET_MS = { moving: 12, resting: 40, slow: 400 }
/**
 * First samples that are thought to take a card no longer than this, ms, are handed over as soon as the hand has moved. A
 * card that has rested runs at a fraction of its speed at first and is thought slow: a low bar here would keep it so.
 */
export const AT_ONCE_MS = 80
/** A change that waits for the card asks for it so often, ms. */
export const ASK_MS = 1
/**
 * While changes come faster than this, ms, bounced light waits to be taken up with the next one, and no picture gets more
 * than its first samples: another look would be in the next change's way, which begins with the first look again.
 */
export const PAUSE_MS = 50
/** Since the last change, ms: the hand has stopped. */
export const STILL_MS = 200
/** A machine that takes longer than this for a coarse batch, ms, draws nothing while the hand moves: both would wait for the processor. */
export const HOLDS_UP_MS = 400
/** Samples a source at which the picture counts as finished. */
export const TARGET = 512
