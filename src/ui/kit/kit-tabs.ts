import { changesOver, type Kit, readKit, writeKit } from '../../kit'
import type { History } from '../../sitting'
import { useKitHistory } from './kit-store'

/** A change of the kit, as texts of kit files. */
interface Told {
  readonly from: string
  readonly to: string
}

/**
 * All tabs have one kit: what is changed in one is laid over what lies in the others, entry by entry, so that whichever writes last
 * writes all of it. From here on this tab tells its changes and hears theirs. Gives back what ends it.
 */
export function shareKit(): () => void {
  if (typeof BroadcastChannel === 'undefined') return () => undefined
  const channel = new BroadcastChannel('halfshade.kit')
  let hears = false
  channel.onmessage = ({ data }: MessageEvent<Told>) => {
    const [from, to] = [readKit(data.from), readKit(data.to)]
    // From a newer version of the page, which this one cannot read.
    if ('problems' in from || 'problems' in to) return
    hears = true
    useKitHistory.setState(({ history }) => ({ history: heard(history, from.kit, to.kit) }))
    hears = false
  }
  const stop = useKitHistory.subscribe((now, before) => {
    const [from, to] = [before.history.present, now.history.present]
    if (!hears && from !== to) channel.postMessage({ from: writeKit(from), to: writeKit(to) } satisfies Told)
  })
  return () => {
    stop()
    channel.close()
  }
}

/** Under every step as well: undo takes back what was done here and nothing that was done elsewhere. */
function heard({ past, present, future }: History<Kit>, from: Kit, to: Kit): History<Kit> {
  const over = <T extends { readonly state: Kit }>(step: T): T => ({
    ...step,
    state: changesOver(step.state, from, to),
  })
  return { past: past.map(over), present: changesOver(present, from, to), future: future.map(over) }
}
