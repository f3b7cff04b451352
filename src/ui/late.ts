import { create, type StoreApi, type UseBoundStore } from 'zustand'
import { Soon } from './picture/soon'

/** Copies that wait, and whether a hand holds a handle of a drawing. */
const followers = new Set<() => void>()
let held = false
let asked = false
let doneAt = Number.NEGATIVE_INFINITY

/** So seldom figures beside the drawing are worked out under a hand, ms: each time keeps the next move waiting. */
const APART_MS = 48

const catchUp = (): void => {
  asked = false
  doneAt = performance.now()
  for (const follow of followers) follow()
}
const afterPaint = new Soon(catchUp)
const atFrame = (): void => {
  if (performance.now() - doneAt < APART_MS) requestAnimationFrame(atFrame)
  else afterPaint.soon()
}

/**
 * A store that shows what another holds: at once, but while a hand holds a handle of a drawing only after a frame's paint, some twenty times a second.
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
    requestAnimationFrame(atFrame)
  })
  return twin
}

/** A hand takes hold of a handle, or lets go: then all that waits catches up at once. */
export function holdOthers(on: boolean): void {
  held = on
  if (!on) catchUp()
}
