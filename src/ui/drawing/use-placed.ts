import { useMemo, useRef } from 'react'
import type { Pane } from './fit'
import { type Frame, framed, inFrame, type Pair } from './placed'

/** Both drawings with the place of each on its pane, and the enlarged edge where there is room for it. */
export function usePlaced(pair: Pair | null, planPane: Pane, elevationPane: Pane, held: boolean) {
  const frame = useRef<Frame | null>(null)
  return useMemo(() => {
    if (!pair) return null
    if (!(held && frame.current)) frame.current = framed(pair, planPane, elevationPane, frame.current)
    return inFrame(pair, frame.current)
  }, [pair, planPane, elevationPane, held])
}
