import { type RefObject, useEffect, useRef } from 'react'

/** A hand that has stopped since is followed to where it stopped after so long, ms. */
const STOPPED_MS = 8

/**
 * Moves over an element as the hand makes them, one a frame at most: a browser that tells of them raw is followed before its next
 * frame begins, half a frame sooner; others tell of them once a frame. `latest` takes up at once what was left for later.
 */
export function useEarlyMoves<E extends Element>(
  element: RefObject<E | null>,
  move: (event: PointerEvent) => void,
): { readonly later: (event: PointerEvent) => void; readonly latest: () => void } {
  const newest = useRef(move)
  newest.current = move
  const frame = useRef<Frame>({ isTaken: false, place: '', left: null, timer: 0 })
  const latest = () => {
    const { left } = frame.current
    forget(frame.current)
    if (left) newest.current(left)
  }
  const later = (event: PointerEvent) => {
    const now = frame.current
    if (!now.isTaken) return newest.current(event)
    forget(now)
    if (now.place === placeOf(event)) return
    now.left = event
    now.timer = window.setTimeout(latest, STOPPED_MS)
  }
  useEffect(() => {
    const from = element.current
    const now = frame.current
    const early = (event: Event) => {
      if (now.isTaken) return
      now.isTaken = true
      now.place = placeOf(event as PointerEvent)
      requestAnimationFrame(() => {
        now.isTaken = false
      })
      forget(now)
      newest.current(event as PointerEvent)
    }
    from?.addEventListener('pointerrawupdate', early)
    return () => {
      forget(now)
      from?.removeEventListener('pointerrawupdate', early)
    }
  }, [element])
  return { later, latest }
}

interface Frame {
  /** A move was taken in it. */
  isTaken: boolean
  /** Where that was, and with which keys held. */
  place: string
  /** The newest move that was not. */
  left: PointerEvent | null
  timer: number
}

const placeOf = ({ clientX, clientY, shiftKey, altKey }: PointerEvent): string =>
  [clientX, clientY, shiftKey, altKey].join()

function forget(frame: Frame): void {
  clearTimeout(frame.timer)
  frame.left = null
}
