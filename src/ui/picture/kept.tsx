import { useEffect, useRef } from 'react'
import { useDerivedNow } from '../derived'
import type { PictureDetail } from './desk'

/** A lost context takes its canvas with it: the last copy of the picture stays in sight until there is another. */
export function Kept() {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const kept = canvas.current
    if (!kept) return
    const keep = (event: Event) => {
      const { copy } = (event as CustomEvent<PictureDetail>).detail
      kept.hidden = true
      if (!copy) return
      kept.width = copy.width
      kept.height = copy.height
      kept.getContext('2d')?.drawImage(copy, 0, 0)
    }
    document.addEventListener('picture', keep)
    const stop = useDerivedNow.subscribe(({ picture }) => {
      if (picture.kind === 'lost') kept.hidden = false
    })
    return () => {
      document.removeEventListener('picture', keep)
      stop()
    }
  }, [])
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a bare canvas takes no focus
  return <canvas ref={canvas} className="kept" aria-hidden="true" hidden />
}
