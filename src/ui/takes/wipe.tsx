import type { Sitting } from '../../sitting'
import { currentSitting, edit, setSession, useSession, useSitting, useStore } from '../store'
import { exposureNote } from './exposed'
import { stillKey, useTakePictures } from './pictures'
import { COMPARED, shows, showTake, type Take } from './take'

/** Shows one of two takes that are compared; a row of such steps is one for undo. */
export const showCompared = (first: Take, second: Take, shown: Take): boolean =>
  edit(`${first.name} | ${second.name}`, (now) => showTake(now, shown.name), COMPARED)

/** Puts the first take left of a divider and the second right of it; the first is shown until there is a still of it. */
export function startWipe(first: Take, second: Take): void {
  const right = showTake(currentSitting(), second.name)
  const at = useStore.getState().session.wipe?.at ?? 50
  setSession({ wipe: { first: first.name, second: second.name, waiting: null, at } })
  const { look } = useStore.getState().session
  if (useTakePictures.getState().stills.has(stillKey(first, look))) showCompared(first, second, second)
  else waitFor(first, right)
}

/** Shows the first take until its still is in, and keeps what is to stand right of the divider then. */
export function waitFor(first: Take, right: Sitting): void {
  const { wipe } = useStore.getState().session
  if (!wipe) return
  setSession({ wipe: { ...wipe, waiting: right } })
  edit(`${wipe.first} | ${wipe.second}`, (now) => showTake(now, first.name), COMPARED)
}

export function endWaiting(right: Sitting): void {
  const { wipe } = useStore.getState().session
  if (!wipe) return
  setSession({ wipe: { ...wipe, waiting: null } })
  edit(`${wipe.first} | ${wipe.second}`, ({ takes }) => ({ ...right, takes }), COMPARED)
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
