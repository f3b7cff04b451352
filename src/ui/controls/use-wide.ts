import { useSyncExternalStore } from 'react'

/** The same width as in layout.css: from here on all groups of a thing stand open under its name. */
const WIDE_EM = 80

/** As last measured; null: not since anything asked. Asking the page at each move of a hand would have it laid out once more. */
let known: boolean | null = null

/** Told when the page changes its width or, seen on the bar, whose height counts in ems, the size of its text. */
const subscribe = (changed: () => void): (() => void) => {
  const observer = new ResizeObserver(() => {
    known = measured()
    changed()
  })
  for (const element of document.querySelectorAll('#root, .bar')) observer.observe(element)
  return () => {
    observer.disconnect()
    known = null
  }
}

function measured(): boolean {
  const em = Number.parseFloat(getComputedStyle(document.documentElement).fontSize)
  return (document.getElementById('root')?.clientWidth ?? window.innerWidth) >= WIDE_EM * em
}

function isWide(): boolean {
  known ??= measured()
  return known
}

/** True on a page with three columns. */
export const useWide = (): boolean => useSyncExternalStore(subscribe, isWide)
