import { createContext, type KeyboardEvent, type ReactNode, type RefObject, useContext, useEffect, useRef } from 'react'
import { pressOnce } from '../press-once'

interface OverProps {
  /** Id of its heading. */
  readonly titled: string
  readonly className?: string
  readonly children: ReactNode
  /** Keys of its own; what it takes, it prevents. */
  onKeys?(event: KeyboardEvent): void
  onClose(): void
}

/** What Escape closes first, of what is open in it. */
const ClosedFirst = createContext<RefObject<(() => void) | null> | null>(null)

/** Escape closes this before all; null: nothing of the kind is open. */
export function useCloseFirst(close: (() => void) | null): void {
  const first = useContext(ClosedFirst)
  useEffect(() => {
    if (!first) return
    first.current = close
    return () => {
      first.current = null
    }
  })
}

/** What lies over the working surface while it is open: it takes the focus, and Escape closes it. */
export function Over({ titled, className = '', children, onKeys, onClose }: OverProps) {
  const box = useRef<HTMLElement>(null)
  const first = useRef<(() => void) | null>(null)
  useEffect(() => {
    box.current?.focus()
    return pressOnce
  }, [])
  /** What had the focus may be gone with it. */
  const closeInner = (close: () => void) => {
    close()
    requestAnimationFrame(() => document.activeElement === document.body && box.current?.focus())
  }
  const keys = (event: KeyboardEvent) => {
    if (event.key === 'Escape' && first.current) closeInner(first.current)
    else if (event.key === 'Escape') onClose()
    else onKeys?.(event)
  }
  return (
    <section
      ref={box}
      className={`contact ${className}`.trim()}
      aria-labelledby={titled}
      tabIndex={-1}
      onKeyDown={keys}
    >
      <ClosedFirst value={first}>{children}</ClosedFirst>
    </section>
  )
}
