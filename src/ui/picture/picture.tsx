import { useRef } from 'react'
import { useDerived } from '../derived'
import { useSitting } from '../store'
import { Wipe } from '../takes/wipe'
import { usePictureEngine } from './use-picture-engine'

/**
 * The print on the grey wall. A plain canvas: the renderer owns its context, its targets and its own clock of work, and
 * the page draws nothing else in three dimensions, so a scene-graph binding would only stand between the two.
 */
export function Picture() {
  const { camera, title } = useSitting()
  const canvas = useRef<HTMLCanvasElement>(null)
  const under = useRef<HTMLCanvasElement>(null)
  const failed = useDerived((derived) => derived.picture.kind === 'failed')
  usePictureEngine(canvas, under)
  const aspect = camera.sensorWidthMm / camera.sensorHeightMm
  return (
    <section id="picture" className="picture" aria-label="Picture">
      <div className="print" style={{ ['--aspect' as string]: aspect }}>
        {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a bare canvas takes no focus */}
        <canvas ref={under} aria-hidden="true" />
        <canvas ref={canvas} role="img" aria-label={failed ? 'No picture' : `The picture of ${title}`} />
        <Wipe />
      </div>
    </section>
  )
}
