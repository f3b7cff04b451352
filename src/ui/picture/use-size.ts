import { type RefObject, useLayoutEffect, useState } from 'react'

export interface Sized {
  readonly width: number
  readonly height: number
  /** Of a figure in the picture: the least that the page has, 14 px of 16. */
  readonly textPx: number
}

const FIGURE_EM = 0.875

/** Size of what lies over the picture, CSS pixels; null: it is not there. */
export function useSize(box: RefObject<HTMLElement | null>, isThere: boolean): Sized | null {
  const [size, setSize] = useState<Sized | null>(null)
  useLayoutEffect(() => {
    const element = box.current
    if (!isThere || !element) return
    const observer = new ResizeObserver(() =>
      setSize({
        width: element.clientWidth,
        height: element.clientHeight,
        textPx: FIGURE_EM * Number.parseFloat(getComputedStyle(element).fontSize),
      }),
    )
    observer.observe(element)
    return () => observer.disconnect()
  }, [box, isThere])
  return size
}
