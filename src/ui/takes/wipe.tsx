import type { Sitting } from '../../sitting'
import { useDerivedNow } from '../derived'
import { CONTACT_WORD } from '../openers'
import type { Beside, Pair } from '../session-types'
import { currentSitting, edit, setSession, useSession, useSitting, useStore } from '../store'
import { exposureNote } from './exposed'
import { seamAt } from './seam'
import { COMPARED, shows, showTake, type Take, takeShown } from './take'

/** Shows one of two takes that are compared; a row of such steps is one for undo. */
export const showCompared = (first: Take, second: Take, shown: Take): boolean =>
  edit(`${first.name} | ${second.name}`, (now) => showTake(now, shown.name), COMPARED)

/** What the set in hand is called where it stands beside others: by its take, if it is one. */
export const nameOfNow = (sitting: Sitting): string => takeShown(sitting)?.name ?? 'the set in hand'

export const nameOf = (half: Beside, sitting: Sitting, inHand?: Pair['inHand']): string =>
  half?.name ?? (inHand?.sitting === sitting ? inHand.name : nameOfNow(sitting))

/** A take as one of two that are compared: the set in hand, where it is that one; the same record for the same take, so that what was drawn of it is found again. */
export function besideOf(take: Take, sitting: Sitting): Beside {
  if (shows(sitting, take)) return null
  const { title, note } = sitting
  const known = asBeside.get(take)
  if (known?.sitting.title === title && known.sitting.note === note) return known
  const beside = { name: take.name, sitting: showTake(sitting, take.name) }
  asBeside.set(take, beside)
  return beside
}
const asBeside = new WeakMap<Take, NonNullable<Beside>>()

/** Of all that can stand on either side. */
export const namesFor = (sitting: Sitting, { left, right, inHand }: Pair): readonly string[] => [
  ...new Set([
    // By one name only.
    ...sitting.takes.filter((take) => inHand?.sitting !== sitting || !shows(sitting, take)).map(({ name }) => name),
    nameOf(null, sitting, inHand),
    nameOf(left, sitting, inHand),
    nameOf(right, sitting, inHand),
  ]),
]

/** A pair with another set on one side, by its name; one that stands on the other side already changes places with it. */
export function chosen(pair: Pair, side: 'left' | 'right', name: string): Pair {
  const sitting = currentSitting()
  const other = side === 'left' ? 'right' : 'left'
  const known = [pair.left, pair.right].find((half) => nameOf(half, sitting, pair.inHand) === name)
  const take = sitting.takes.find((one) => one.name === name)
  const half = known !== undefined ? known : take ? besideOf(take, sitting) : null
  const swaps = nameOf(pair[other], sitting, pair.inHand) === name
  const now = { left: pair.left, right: pair.right, [side]: half, ...(swaps && { [other]: pair[side] }) }
  // Against another set than it was asked for, the one in hand has its own name again.
  return swaps && pair.inHand !== undefined ? { ...now, inHand: pair.inHand } : now
}

/** Parts the picture between two sets under their names; the set in hand is one of them or neither, and stays what it is. */
export function startWipe(pair: Pair): void {
  const { wipe, look } = useStore.getState().session
  const { rig } = useDerivedNow.getState()
  const at = wipe?.at ?? (rig ? seamAt(rig, look) : 50)
  setSession({ wipe: { ...pair, at } })
}

export function endWipe(): void {
  setSession({ wipe: null })
  // What had the focus may be gone with it.
  requestAnimationFrame(() => {
    if (document.activeElement === document.body) document.getElementById(CONTACT_WORD)?.focus()
  })
}

/** Ends it, and makes a half of it the set in hand, as one step. */
export function putInHand({ name, sitting }: NonNullable<Beside>): void {
  endWipe()
  edit(`${name}, from the split picture`, ({ takes, title, note }) => ({ ...sitting, takes, title, note }))
}

/** Behind a title: of which set it is, while two are in sight. */
export function OfNow() {
  const inHand = useSession(({ wipe }) => wipe?.inHand)
  return ` of ${setWords(useSitting(), inHand)}`
}

/** Within a sentence: 'take 1', 'the set with the white panel'. */
const setWords = (sitting: Sitting, inHand: Pair['inHand']): string =>
  inHand?.sitting === sitting ? `the set ${inHand.name}` : nameOfNow(sitting)

/** Beside the comparison: where the set stands that plan and readings are of. */
export function WhichHalf({ className }: { className: string }) {
  const wipe = useSession((session) => session.wipe)
  const sitting = useSitting()
  if (!wipe) return null
  const half = wipe.left === null ? 'on the left' : wipe.right === null ? 'on the right' : 'in neither half'
  return <p className={className}>{`Plan, readings and controls are of ${setWords(sitting, wipe.inHand)}, ${half}.`}</p>
}

/** Beside the comparison: what of it is exposure and not light. */
export function ExposureNote({ className }: { className: string }) {
  const wipe = useSession((session) => session.wipe)
  const sitting = useSitting()
  if (!wipe) return null
  const of = (half: Beside) => ({ name: nameOf(half, sitting, wipe.inHand), sitting: half?.sitting ?? sitting })
  const words = exposureNote(of(wipe.left), of(wipe.right))
  return words && <p className={className}>{words}</p>
}

/** Halves that are neither the set in hand nor among its takes: such as come from the contact sheet. */
export const strangers = ({ takes }: Sitting, ...halves: readonly Beside[]): readonly NonNullable<Beside>[] =>
  halves.filter((half) => half !== null).filter(({ name }) => !takes.some((take) => take.name === name))
