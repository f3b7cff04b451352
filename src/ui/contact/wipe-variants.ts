import type { Sitting } from '../../sitting'
import { currentSitting, edit, setSession, useStore } from '../store'
import { withTake } from '../takes/take'
import { startWipe } from '../takes/wipe'

interface Named {
  readonly name: string
  readonly sitting: Sitting
}

/**
 * Parts the picture between two sets, kept as takes for it, each under its own name or the one that it is kept under already. The set as
 * it was comes back when the comparison ends, unless the right one is taken up.
 */
export function wipeVariants(first: Named, second: Named): void {
  const before = currentSitting()
  let kept: readonly string[] = []
  const done = edit(`${first.name} and ${second.name} kept as takes`, (now) => {
    const one = withTake(now, first.sitting, first.name)
    const two = withTake(one.sitting, second.sitting, second.name)
    kept = [one.name, two.name]
    return two.sitting
  })
  const [left, right] = kept.map((name) => currentSitting().takes.find((take) => take.name === name))
  if (!done || !left || !right) return
  // A new pair is parted anew.
  setSession({ wipe: null })
  startWipe(left, right)
  const { wipe } = useStore.getState().session
  if (wipe) setSession({ wipe: { ...wipe, before }, page: 'takes' })
}
