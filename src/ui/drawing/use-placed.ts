import { useMemo, useRef } from 'react'
import type { Sitting } from '../../sitting'
import { useSession, useStore } from '../store'
import type { Pane } from './fit'
import { type Frame, framed, onItsElevation, onItsPlan, type Pair } from './placed'
import { windowOf } from './window'

/**
 * Both drawings with the place of each on its pane, and the enlarged edge where there is room for it. One of them that is the
 * very same as before is given back as it was, so that only what changed is drawn again. Once all is undone, both lie as at the opening;
 * another sitting that is opened is placed anew.
 */
export function usePlaced(pair: Pair | null, planPane: Pane, elevationPane: Pane, held: boolean) {
  const kept = useRef<Frame | null>(null)
  const first = useRef<Frame | null>(null)
  const of = useRef<Sitting | null>(null)
  const opened = useSession((session) => session.opened)
  const isUndone = useStore(({ history }) => history.past.length === 0)
  const frame = useMemo(() => {
    if (pair && !(held && kept.current)) {
      const before = of.current !== opened ? null : (isUndone && first.current) || kept.current
      of.current = opened
      kept.current = framed(pair, planPane, elevationPane, before)
      if (isUndone) first.current = kept.current
    }
    return kept.current
  }, [pair, planPane, elevationPane, held, isUndone, opened])
  const [drawnPlan, drawnElevation] = [pair?.plan ?? null, pair?.elevation ?? null]
  const window = useMemo(() => (drawnPlan ? windowOf(drawnPlan) : null), [drawnPlan])
  const beside = frame?.spots.elevation ? window : null
  const plan = useMemo(() => drawnPlan && frame && onItsPlan(drawnPlan, window, frame), [drawnPlan, window, frame])
  const elevation = useMemo(
    () => drawnElevation && frame && onItsElevation(drawnElevation, beside, frame),
    [drawnElevation, beside, frame],
  )
  return plan && elevation && { plan, elevation }
}
