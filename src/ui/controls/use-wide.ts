import { useSyncExternalStore } from 'react'

/** The same width as in layout.css: from here on all groups of a thing stand open under its name. */
const WIDE = '(min-width: 80em)'

const subscribe = (changed: () => void): (() => void) => {
  const query = window.matchMedia(WIDE)
  query.addEventListener('change', changed)
  return () => query.removeEventListener('change', changed)
}

/** True on a screen with three columns. */
export const useWide = (): boolean => useSyncExternalStore(subscribe, () => window.matchMedia(WIDE).matches)
