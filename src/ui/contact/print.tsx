import { type ReactNode, useEffect, useRef } from 'react'

interface PrintProps {
  readonly bitmap: ImageBitmap | null
  readonly name: string
  /** Broader than high, as a crop is shown. */
  readonly broad?: boolean
  /** What lies over it. */
  readonly children?: ReactNode
}

/** A small picture with a white border; until there is one, grey that says so. */
export function Print({ bitmap, name, broad = false, children }: PrintProps) {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const element = canvas.current
    if (!element) return
    // The picture before it is of something else.
    if (!bitmap) element.width = 0
    if (!bitmap) return
    element.width = bitmap.width
    element.height = bitmap.height
    element.getContext('2d')?.drawImage(bitmap, 0, 0)
  }, [bitmap])
  return (
    <div className={broad ? 'contact-print broad' : 'contact-print'}>
      <canvas ref={canvas} role="img" aria-label={bitmap ? `picture: ${name}` : `picture of ${name}, not yet drawn`} />
      {!bitmap && (
        <p className="undrawn" aria-hidden="true">
          not yet drawn
        </p>
      )}
      {children}
    </div>
  )
}
