import type { Beside } from '../session-types'
import { setSession } from '../store'
import { startWipe } from '../takes/wipe'

/** Parts the picture between two of the contact sheet, each under its own name; the set in hand stays what it is. */
export function wipeVariants(first: Beside, second: Beside): void {
  // A new pair is parted anew.
  setSession({ wipe: null, page: 'takes' })
  startWipe({ left: first, right: second })
}
