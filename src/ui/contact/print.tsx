import { useEffect, useRef } from 'react'

/** A small picture with a white border; grey until there is one. */
export function Print({ bitmap, name }: { bitmap: ImageBitmap | null; name: string }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const element = canvas.current
    if (!element || !bitmap) return
    element.width = bitmap.width
    element.height = bitmap.height
    element.getContext('2d')?.drawImage(bitmap, 0, 0)
  }, [bitmap])
  return (
    <div className="contact-print">
      <canvas ref={canvas} role="img" aria-label={bitmap ? `picture: ${name}` : `picture of ${name}, not yet drawn`} />
    </div>
  )
}
