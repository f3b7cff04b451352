import type { Sitting } from '../../sitting'
import { useDerivedNow } from '../derived'
import { CONTACT_WORD } from '../openers'
import { currentSitting, edit, jump, setSession, useSession, useSitting, useStore } from '../store'
import { exposureNote } from './exposed'
import { stillKey, useTakePictures } from './pictures'
import { seamAt } from './seam'
import { COMPARED, shows, showTake, type Take } from './take'

/** Shows one of two takes that are compared; a row of such steps is one for undo. */
export const showCompared = (first: Take, second: Take, shown: Take): boolean =>
  edit(`${first.name} | ${second.name}`, (now) => showTake(now, shown.name), COMPARED)

/** Puts the first take left of a divider and the second right of it; the first is shown until there is a still of it. */
export function startWipe(first: Take, second: Take): void {
  const right = showTake(currentSitting(), second.name)
  const { wipe, look } = useStore.getState().session
  const { rig } = useDerivedNow.getState()
  const { at = rig ? seamAt(rig, look) : 50, before = null } = wipe ?? {}
  setSession({ wipe: { first: first.name, second: second.name, waiting: null, at, before, least: 0 } })
  if (useTakePictures.getState().stills.has(stillKey(first, look))) showCompared(first, second, second)
  else waitFor(first, right)
}

/** Shows the first take until its still is in, with so many samples, and keeps what is to stand right of the divider then. */
export function waitFor(first: Take, right: Sitting, least = 0): void {
  const { wipe } = useStore.getState().session
  if (!wipe) return
  setSession({ wipe: { ...wipe, waiting: right, least } })
  edit(`${wipe.first} | ${wipe.second}`, (now) => showTake(now, first.name), COMPARED)
}

export function endWaiting(right: Sitting): void {
  const { wipe } = useStore.getState().session
  if (!wipe) return
  setSession({ wipe: { ...wipe, waiting: null, least: 0 } })
  edit(`${wipe.first} | ${wipe.second}`, ({ takes }) => ({ ...right, takes }), COMPARED)
}

/** Ends the comparison. A set that was varied for it comes back, as if it had never been; who worked on with one side goes on with it. */
export function endWipe(): void {
  const { history, session } = useStore.getState()
  const before = session.wipe?.before
  setSession({ wipe: null })
  const place = before ? history.past.findIndex(({ state }) => state === before) : -1
  if (place < 0 || history.past.slice(place + 1).some(({ gesture }) => gesture !== COMPARED)) return
  jump(place)
  // What had the focus may be gone with the takes.
  requestAnimationFrame(() => document.getElementById(CONTACT_WORD)?.focus())
}

/** Ends it with what stands on the right: where the set was varied for it, as one step, as from the contact sheet. */
export function takeUp(): void {
  const { wipe } = useStore.getState().session
  const { takes: _, ...right } = wipe?.waiting ?? currentSitting()
  endWipe()
  if (wipe && currentSitting() === wipe.before)
    edit(`${wipe.second}, from the contact sheet`, ({ takes }) => ({ ...right, takes }))
}

/** Beside the comparison: what of it is exposure and not light. */
export function ExposureNote({ className }: { className: string }) {
  const wipe = useSession((session) => session.wipe)
  const sitting = useSitting()
  const [first, second] = [wipe?.first, wipe?.second].map((name) => sitting.takes.find((take) => take.name === name))
  if (!wipe || !first || !second) return null
  const words = exposureNote(first, { name: rightOf(sitting, second), sitting })
  return words && <p className={className}>{words}</p>
}

export const rightOf = (sitting: Sitting, second: Take): string =>
  shows(sitting, second) ? second.name : 'the set as it stands'
