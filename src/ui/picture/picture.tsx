import { useRef } from 'react'
import { isCrop, type Look } from '../../rig'
import { useDerived } from '../derived'
import { LOOK_WORDS, lookShown } from '../looks/looks'
import { RulerEdge } from '../looks/ruler-edge'
import { useSession, useSittingPart } from '../store'
import { Wipe } from '../takes/wipe'
import { ShadowEdge } from './shadow-edge'
import { usePictureEngine } from './use-picture-engine'

/**
 * The print on the grey wall. A plain canvas: the renderer owns its context, its targets and its own clock of work, and
 * the page draws nothing else in three dimensions, so a scene-graph binding would only stand between the two.
 */
export function Picture() {
  const camera = useSittingPart((sitting) => sitting.camera)
  const title = useSittingPart((sitting) => sitting.title)
  const canvas = useRef<HTMLCanvasElement>(null)
  const under = useRef<HTMLCanvasElement>(null)
  const failed = useDerived((derived) => derived.picture.kind === 'failed')
  const look = useSession(lookShown)
  usePictureEngine(canvas, under)
  const aspect = camera.sensorWidthMm / camera.sensorHeightMm
  return (
    <section id="picture" className="picture" aria-label="Picture">
      <div className={isCrop(look) ? 'print cropped' : 'print'} style={{ ['--aspect' as string]: aspect }}>
        {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a bare canvas takes no focus */}
        <canvas ref={under} aria-hidden="true" />
        <canvas ref={canvas} role="img" aria-label={failed ? 'No picture' : pictureName(title, look)} />
        <RulerEdge look={look} />
        <ShadowEdge look={look} />
        <Wipe />
      </div>
    </section>
  )
}

const pictureName = (title: string, look: Look): string =>
  look === 'camera' ? `The picture of ${title}` : `The picture of ${title}, ${LOOK_WORDS[look]}`
