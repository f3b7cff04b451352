import { useEffect, useRef } from 'react'
import { presentPicture } from './present-picture'

/** The picture as it was predicted, as far as it is drawn; nothing where it is not. */
export function Prediction({ look }: { look: string }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const from = presentPicture()
  useEffect(() => {
    const element = canvas.current
    if (!element || !from) return
    element.width = from.width
    element.height = from.height
    element.getContext('2d')?.drawImage(from, 0, 0)
  }, [from])
  return from && <canvas ref={canvas} role="img" aria-label={`Predicted picture: ${look}`} />
}
