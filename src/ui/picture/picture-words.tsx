import { useDerived } from '../derived'
import { pictureBy, useSession } from '../store'

/** What the picture is doing, in words: never on the grey wall, and a count instead of a spinner. And by what it is not as the camera has it. */
export function PictureWords() {
  const byModelling = useSession((session) => pictureBy(session).byModelling)
  const blurred = useSession((session) => pictureBy(session).blurred)
  const failed = useDerived((derived) => derived.picture.kind === 'failed')
  return (
    <>
      {byModelling && !failed && 'by modelling lamps, '}
      {blurred && !failed && 'blurred, '}
      <Work />
    </>
  )
}

function Work() {
  const picture = useDerived((derived) => derived.picture)
  switch (picture.kind) {
    case 'loading':
      return <>drawing the first picture</>
    case 'working':
      // What is in sight is the last picture, until the first samples of this one are in.
      if (picture.samples === 0) return <>drawing</>
      return (
        <>
          {picture.rough && 'rough, '}
          {picture.error === null ? `${picture.samples} samples` : `within ${percent(picture.error)}`}
        </>
      )
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
const percent = (share: number): string => `${(100 * share).toPrecision(share < 0.1 ? 1 : 2)} %`
