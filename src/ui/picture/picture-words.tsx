import { isBlurCut, lookFrom } from '../../rig'
import { useDerived } from '../derived'
import { pictureBy, useSession, useSitting } from '../store'

/** What the picture is doing, in words: never on the grey wall, and a count instead of a spinner. And by what it is not as the camera has it. */
export function PictureWords() {
  const byModelling = useSession((session) => pictureBy(session).byModelling)
  const blurred = useSession((session) => pictureBy(session).blurred)
  const cut = useBlurCut(blurred)
  const failed = useDerived((derived) => derived.picture.kind === 'failed')
  return (
    <>
      {byModelling && !failed && 'by modelling lamps, '}
      {blurred && !failed && (cut ? 'blurred, the widest discs less than they are, ' : 'blurred, ')}
      <Work />
    </>
  )
}

/** Whether the blur in sight is drawn smaller than the lens would have it somewhere. */
function useBlurCut(blurred: boolean): boolean {
  const look = useSession((session) => session.look)
  const rig = useDerived((derived) => derived.rig)
  const fNumber = useDerived((derived) => derived.read?.exposure.fNumber)
  const { focalLengthMm } = useSitting().camera
  // The profile is seen by no lens.
  if (!blurred || !rig || look === 'profile') return false
  return isBlurCut({ ...rig, view: lookFrom(rig, look) }, fNumber ?? rig.view.fNumber, focalLengthMm)
}

function Work() {
  const picture = useDerived((derived) => derived.picture)
  switch (picture.kind) {
    case 'loading':
      return <>drawing the first picture</>
    case 'working':
      // What is in sight is the last picture, until the first samples of this one are in.
      if (picture.samples === 0) return <>drawing</>
      if (picture.rough) return <>still rough{picture.error !== null && `, ±${percent(picture.error)}`}</>
      return <>{picture.error === null ? `${picture.samples} samples` : `within ${percent(picture.error)}`}</>
    case 'finished':
      if (picture.rough) return <>finished roughly</>
      return <>finished{picture.error === null ? `, ${picture.samples} samples` : ` to ${percent(picture.error)}`}</>
    case 'lost':
      return <>picture paused, restoring</>
    case 'failed':
      return <>no picture</>
  }
}

/** Why there is no picture, what still works, and one thing to try. */
export function PictureFault() {
  const picture = useDerived((derived) => derived.picture)
  if (picture.kind !== 'failed') return null
  return <p className="caution">{picture.missing}</p>
}

/** Of a mean error: two figures are as many as it is known to. */
const percent = (share: number): string => `${Number((100 * share).toPrecision(share < 0.1 ? 1 : 2))} %`
