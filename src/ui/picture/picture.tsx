import { lazy, Suspense, useEffect, useRef, useState } from 'react'
import { CROP_PX, isCrop, type Look } from '../../rig'
import type { Sitting } from '../../sitting'
import { useDerived } from '../derived'
import { isAnotherDocument } from '../desks/another-set'
import { LOOK_WORDS } from '../looks/looks'
import { pictureBy, useSession, useSittingPart } from '../store'
import type { PictureDetail } from './desk'
import { Kept } from './kept'
import { MeterMarks } from './meter-marks'
import { PlaceMark } from './place-mark'
import { usePictureDesk } from './use-picture-desk'

const BackdropMarks = lazy(async () => ({ default: (await import('./backdrop-marks')).BackdropMarks }))
const JudgingMarks = lazy(async () => ({ default: (await import('../judge/marks')).JudgingMarks }))
const RulerEdge = lazy(async () => ({ default: (await import('../looks/ruler-edge')).RulerEdge }))
const ShadowEdge = lazy(async () => ({ default: (await import('./shadow-edge')).ShadowEdge }))
const Wipe = lazy(async () => ({ default: (await import('../takes/wipe-view')).Wipe }))
const LoupeMarks = lazy(async () => ({ default: (await import('../looks/loupe')).LoupeMarks }))

/**
 * The print on the grey wall. A plain canvas that is given to a thread of its own: the renderer owns its context, its
 * targets and its clock of work.
 */
export function Picture() {
  const camera = useSittingPart((sitting) => sitting.camera)
  const title = useSittingPart((sitting) => sitting.title)
  const canvas = useRef<HTMLCanvasElement>(null)
  const failed = useDerived((derived) => derived.picture.kind === 'failed')
  const look = useSession((session) => session.look)
  const byModelling = useSession((session) => pictureBy(session).byModelling)
  const isJudged = useSession(({ judging }) => judging !== null)
  const isOutlined = useSession((session) => session.outlined)
  const isWiped = useSession(({ wipe }) => wipe !== null)
  const isOnBackdrop = useSession(({ backdropShown }) => backdropShown)
  const blurred = useSession((session) => pictureBy(session).blurred)
  usePictureDesk(canvas)
  const aspect = camera.sensorWidthMm / camera.sensorHeightMm
  return (
    <section id="picture" className="picture" aria-label="Picture">
      <div
        className={look === 'edge' ? 'print cropped loupe' : isCrop(look) ? 'print cropped' : 'print'}
        style={{ ['--aspect' as string]: aspect, ['--loupe' as string]: `${CROP_PX.edge / window.devicePixelRatio}px` }}
      >
        <canvas
          ref={canvas}
          role="img"
          aria-label={failed ? 'No picture' : pictureName(title, look, blurred, byModelling)}
        />
        <Kept />
        <Behind />
        <Suspense>
          {isCrop(look) && <RulerEdge look={look} />}
          {isOutlined && <ShadowEdge look={look} />}
          {isOnBackdrop && <BackdropMarks look={look} />}
        </Suspense>
        {isJudged && (
          <Suspense>
            <JudgingMarks />
          </Suspense>
        )}
        <MeterMarks look={look} />
        <PlaceMark look={look} />
        {look === 'edge' && (
          <Suspense>
            <LoupeMarks />
          </Suspense>
        )}
        {isWiped && (
          <Suspense>
            <Wipe />
          </Suspense>
        )}
      </div>
    </section>
  )
}

/** Under this long nobody looks for the new picture of a set that goes on, nor for that of another document, ms. */
const BEHIND_MS = { set: 1000, document: 250 }

/** Over what is still the picture of the set before, or none; that of another document is not left in sight. */
function Behind() {
  const isBefore = useDerived(({ picture }) => picture.kind === 'working' && picture.samples === 0)
  const isAnother = useIsAnother()
  const set = useLate(isBefore, BEHIND_MS.set)
  const other = useLate(isAnother, BEHIND_MS.document)
  if (other) return <p className="behind all">drawing this set</p>
  return set && <p className="behind">drawing: not this set yet</p>
}

/** Whether something has been so for so long, ms. */
function useLate(isSo: boolean, afterMs: number): boolean {
  const [late, tell] = useState(false)
  useEffect(() => {
    if (!isSo) return
    const timer = setTimeout(() => tell(true), afterMs)
    return () => {
      clearTimeout(timer)
      tell(false)
    }
  }, [isSo, afterMs])
  return late
}

/** Whether the picture in sight is of another document than the one on the desk, while one of that is drawn. */
function useIsAnother(): boolean {
  const [seen, see] = useState<Sitting | null>(null)
  useEffect(() => {
    const look = (event: Event) => see((event as CustomEvent<PictureDetail>).detail.sitting)
    document.addEventListener('picture', look)
    return () => document.removeEventListener('picture', look)
  }, [])
  const isWorking = useDerived(({ picture }) => picture.kind === 'working')
  const isAnother = useSittingPart((now) => seen !== null && isAnotherDocument(seen, now))
  return isWorking && isAnother
}

const pictureName = (title: string, look: Look, blurred: boolean, byModelling: boolean): string =>
  `The picture of ${title}${look === 'camera' ? '' : `, ${LOOK_WORDS[look]}`}${byModelling ? ', by the modelling lamps' : ''}${blurred ? ', blurred out of focus' : ''}`
