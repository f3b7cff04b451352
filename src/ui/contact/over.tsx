import { type KeyboardEvent, type ReactNode, useEffect, useRef } from 'react'
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

/** What lies over the working surface while it is open: it takes the focus, and Escape closes it. */
export function Over({ titled, className = '', children, onKeys, onClose }: OverProps) {
  const box = useRef<HTMLElement>(null)
  useEffect(() => {
    box.current?.focus()
    return pressOnce
  }, [])
  const keys = (event: KeyboardEvent) => {
    if (event.key === 'Escape') onClose()
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
      {children}
    </section>
  )
}
