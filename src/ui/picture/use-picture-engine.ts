import { type RefObject, useEffect } from 'react'
import { setDerived } from '../derived'

/** Runs the renderer on a canvas for as long as the page shows it. */
export function usePictureEngine(canvas: RefObject<HTMLCanvasElement | null>): void {
  useEffect(() => {
    const context = canvas.current?.getContext('webgl2')
    if (!context) setDerived({ picture: { kind: 'failed', missing: 'This browser gives no WebGL 2.' } })
  }, [canvas])
}
