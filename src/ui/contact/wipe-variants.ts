import type { Sitting } from '../../sitting'
import { currentSitting, edit, setSession } from '../store'
import { withTake } from '../takes/take'
import { startWipe } from '../takes/wipe'

interface Named {
  readonly name: string
  readonly sitting: Sitting
}

/** Keeps two sets as takes, each under its own name or the one that it is kept under already, and parts the picture between them. */
export function wipeVariants(first: Named, second: Named): void {
  let kept: readonly string[] = []
  const done = edit(`${first.name} and ${second.name} kept as takes`, (now) => {
    const one = withTake(now, first.sitting, first.name)
    const two = withTake(one.sitting, second.sitting, second.name)
    kept = [one.name, two.name]
    return two.sitting
  })
  const [left, right] = kept.map((name) => currentSitting().takes.find((take) => take.name === name))
  if (!done || !left || !right) return
  // A new pair is parted in the middle.
  setSession({ wipe: null })
  startWipe(left, right)
}
