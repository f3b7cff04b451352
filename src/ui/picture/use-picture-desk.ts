import { type RefObject, useEffect } from 'react'
import { setDerived, useDerivedNow } from '../derived'
import { currentSitting, isCounted, isCovered, pictureBy, type Session, useStore } from '../store'
import { pictureDesk } from './desk'
import type { Size } from './types'

/** What of the session goes into the weighing. */
const weighed = (session: Session) => ({ solo: session.solo, ...pictureBy(session) })
type Weighed = keyof ReturnType<typeof weighed>

/** Pixels that a device is asked for at most; a phone's screen is small and its graphics are slow. */
const MOST_PIXELS = { phone: 0.3e6, desk: 1.2e6 }

/** Has the picture drawn on a canvas for as long as the page shows it. Sittings come from derive.ts. */
export function usePictureDesk(canvas: RefObject<HTMLCanvasElement | null>): void {
  useEffect(() => {
    const element = canvas.current
    if (!element) return
    pictureDesk.open(element, pixelsOf(element))
    const sized = new ResizeObserver(() => pictureDesk.tell({ kind: 'size', size: pixelsOf(element) }))
    sized.observe(element)
    const weigh = () => {
      const { set = 0, exposure = null } = useDerivedNow.getState().read ?? {}
      pictureDesk.weigh({ set, exposure, ...weighed(useStore.getState().session) })
    }
    const stopDerived = useDerivedNow.subscribe((now, before) => {
      if (now.read !== before.read) weigh()
    })
    const stopSession = useStore.subscribe((now, before) => {
      if (now.session.look !== before.session.look) pictureDesk.draw(currentSitting())
      const [how, howBefore] = [weighed(now.session), weighed(before.session)]
      if ((Object.keys(how) as Weighed[]).some((name) => how[name] !== howBefore[name])) weigh()
      const covered = isCovered(now.session)
      if (covered !== isCovered(before.session)) pictureDesk.tell({ kind: 'rest', on: covered })
      const counted = isCounted(now.session)
      if (counted !== isCounted(before.session)) judge(counted)
    })
    return () => {
      stopDerived()
      stopSession()
      sized.disconnect()
    }
  }, [canvas])
}

function judge(on: boolean): void {
  pictureDesk.tell({ kind: 'judge', on })
  if (!on) setDerived({ plate: null })
}

/** The canvas in device pixels, scaled down together where that is more than the device should be asked for. */
export function pixelsOf(element: HTMLElement): Size {
  const most = window.matchMedia('(max-width: 55.99em)').matches ? MOST_PIXELS.phone : MOST_PIXELS.desk
  const wide = Math.max(16, element.clientWidth) * window.devicePixelRatio
  const high = Math.max(16, element.clientHeight) * window.devicePixelRatio
  const k = Math.min(1, Math.sqrt(most / (wide * high)))
  return { width: Math.round(wide * k), height: Math.round(high * k) }
}
