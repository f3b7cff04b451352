import { create } from 'zustand'
import { writeSitting } from '../sitting'
import { type Earlier, withMore } from './earlier'
import { currentSitting } from './store'

/** What a tab of this app has put on the device. */
interface Kept {
  readonly tab: string
  readonly sitting: string
  /** What that was laid over, there. */
  readonly earlier: readonly Earlier[]
}

interface OtherTabs {
  /** Of each other tab the last, in the order in which they came. */
  readonly kept: readonly Kept[]
  /** The sitting that another tab has changed while another one lies here; null: none, or it is left there. */
  readonly offered: string | null
}

export const useOtherTabs = create<OtherTabs>(() => ({ kept: [], offered: null }))

/** The name of the step by which this tab's sitting lies over another tab's. */
const OVER = 'over another tab’s sitting'
const TAB = `${Date.now()} ${Math.random()}`
let channel: BroadcastChannel | null = null
let told: string | null = null

/**
 * All tabs keep their sittings in one place, the last over the others. From here on this tab hears what others put there: it lies under
 * what this tab keeps from then on, so that the history has it; and what this tab kept is laid under theirs.
 * keepUnder: changes what the device has under the sitting.
 */
export function listenToOtherTabs(
  keepUnder: (change: (earlier: readonly Earlier[]) => readonly Earlier[]) => Promise<void>,
): void {
  if (typeof BroadcastChannel === 'undefined') return
  channel = new BroadcastChannel('halfshade.desk')
  channel.onmessage = ({ data }: MessageEvent<Kept>) => {
    const own = writeSitting(currentSitting())
    const others = useOtherTabs.getState().kept.filter(({ tab }) => tab !== data.tab)
    useOtherTabs.setState({ kept: [...others, data], offered: data.sitting === own ? null : data.sitting })
    if (told === null || told === data.sitting) return
    const under = { name: OVER, text: told }
    // A device that keeps nothing has said so for the desk.
    keepUnder((earlier) => withMore(earlier, [under])).catch(() => undefined)
  }
}

/** Tells what this tab puts on the device, at once: a page that is being closed hears of no end. */
export function tellOtherTabs(sitting: string, earlier: readonly Earlier[]): void {
  told = sitting
  channel?.postMessage({ tab: TAB, sitting, earlier } satisfies Kept)
}

/** What lies under this tab's sitting, with what other tabs have kept: theirs is the nearest, as nobody has seen it here. */
export const withOthers = (own: readonly Earlier[]): readonly Earlier[] => {
  const { kept } = useOtherTabs.getState()
  const theirs = kept.flatMap(({ earlier }) => earlier)
  return withMore(theirs, [...own, ...kept.map(({ sitting }) => ({ name: OVER, text: sitting }))])
}

export const leaveOther = (): void => useOtherTabs.setState({ offered: null })
