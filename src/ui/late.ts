import { create, type StoreApi, type UseBoundStore } from 'zustand'
import { Soon } from './picture/soon'

/** Copies that wait, and whether a hand holds a handle of a drawing. */
const followers = new Set<() => void>()
let held = false
let asked = false

const catchUp = (): void => {
  asked = false
  for (const follow of followers) follow()
}
const afterPaint = new Soon(catchUp)

/**
 * A store that shows what another holds: at once, but while a hand holds a handle of a drawing only after each frame's paint.
 * So the drawing under the hand is painted before anything beside it is worked out; nothing is ever read back from the copy.
 */
export function lateTwin<T>(of: StoreApi<T>): UseBoundStore<StoreApi<T>> {
  const twin = create<T>(() => of.getState())
  const follow = () => twin.setState(of.getState(), true)
  followers.add(follow)
  of.subscribe(() => {
    if (!held) return follow()
    if (asked) return
    asked = true
    requestAnimationFrame(() => afterPaint.soon())
  })
  return twin
}

/** A hand takes hold of a handle, or lets go: then all that waits catches up at once. */
export function holdOthers(on: boolean): void {
  held = on
  if (!on) catchUp()
}
