import { type RefObject, useEffect } from 'react'
import { recombinationOf } from '../../render'
import { type Rig, rigSeen } from '../../rig'
import { type Derived, setDerived, useDerived } from '../derived'
import { lookShown } from '../looks/looks'
import { useStore } from '../store'
import { PictureEngine } from './engine'

/** Pixels that a device is asked for at most; a phone's screen is small and its graphics are slow. */
const MOST_PIXELS = { phone: 0.3e6, desk: 1.2e6 }

/** Runs the renderer on a canvas for as long as the page shows it. */
export function usePictureEngine(
  canvas: RefObject<HTMLCanvasElement | null>,
  under: RefObject<HTMLCanvasElement | null>,
): void {
  useEffect(() => {
    const element = canvas.current
    if (!element || !under.current) return
    const engine = new PictureEngine({ canvas: element, under: under.current }, pixelsOf(element), (picture) =>
      setDerived({ picture }),
    )
    const sized = new ResizeObserver(() => engine.setSize(pixelsOf(element)))
    sized.observe(element)
    const weigh = ({ rig, read }: Derived) =>
      rig && recombinationOf(rig, read?.exposure ?? null, { solo: useStore.getState().session.solo })
    // A view of its own never equals the document's rig, so takes keep the camera's picture alone.
    const seen = (rig: Rig) => rigSeen(rig, lookShown(useStore.getState().session))
    const follow = (now: Derived, before: Derived | null) => {
      const how = weigh(now)
      if (!how || !now.rig) return
      if (now.rig !== before?.rig) engine.setRig(seen(now.rig), how)
      if (now.indirect && now.indirect !== before?.indirect) engine.setIndirect(now.indirect)
      if (now.rig !== before?.rig || now.read !== before?.read) engine.setRecombination(how)
    }
    follow(useDerived.getState(), null)
    const stopDerived = useDerived.subscribe(follow)
    const stopSession = useStore.subscribe((now, before) => {
      const derived = useDerived.getState()
      const how = weigh(derived)
      if (!how || !derived.rig) return
      if (lookShown(now.session) !== lookShown(before.session)) engine.setRig(seen(derived.rig), how)
      if (now.session.solo !== before.session.solo) engine.setRecombination(how)
    })
    return () => {
      stopDerived()
      stopSession()
      sized.disconnect()
      engine.dispose()
    }
  }, [canvas, under])
}

/** The canvas in device pixels, scaled down together where that is more than the device should be asked for. */
function pixelsOf(element: HTMLCanvasElement): { width: number; height: number } {
  const most = window.matchMedia('(max-width: 55.99em)').matches ? MOST_PIXELS.phone : MOST_PIXELS.desk
  const wide = Math.max(16, element.clientWidth) * window.devicePixelRatio
  const high = Math.max(16, element.clientHeight) * window.devicePixelRatio
  const k = Math.min(1, Math.sqrt(most / (wide * high)))
  return { width: Math.round(wide * k), height: Math.round(high * k) }
}
