import { create } from 'zustand'
import { useDerivedNow } from '../derived'
import type { PictureDetail } from '../picture/desk'
import { currentSitting, pictureBy, useStore } from '../store'
import { pictureKey, takeShown } from './take'

/** Small pictures of takes by their key (take.ts), which the device keeps. */
interface TakePictures {
  readonly thumbs: Readonly<Record<string, string>>
}

export const useTakePictures = create<TakePictures>(() => ({ thumbs: {} }))

/** Pixels of a thumbnail's height: twice what the page shows. */
const THUMB_PX = 96
/** The device keeps this many; the oldest go. */
const MOST = 64

/** Keeps a small copy of the picture of every take that is in sight. Gives back what ends it. */
export function watchTakes(): () => void {
  const settled = exposureFollows()
  const pictured = (event: Event) => {
    const { sitting, look, samples, isWeighed, copy } = (event as CustomEvent<PictureDetail>).detail
    // A take is kept as the camera has it: by flash, and sharp.
    const { blurred, byModelling } = pictureBy(useStore.getState().session)
    if (blurred || byModelling) return
    const isOfNow = sitting === currentSitting() && isWeighed && settled.now()
    const take = copy && samples > 0 && isOfNow && look === 'camera' ? takeShown(sitting) : null
    if (take) keepThumb(pictureKey(take), copy!)
  }
  document.addEventListener('picture', pictured)
  return () => {
    document.removeEventListener('picture', pictured)
    settled.end()
  }
}

/** After a change of the set the picture is weighed by the old exposure until the light has been read again. */
function exposureFollows() {
  let readBefore = useDerivedNow.getState().read
  const end = useStore.subscribe((now, before) => {
    if (now.history.present !== before.history.present) readBefore = useDerivedNow.getState().read
  })
  return { now: () => useDerivedNow.getState().read !== readBefore, end }
}

function keepThumb(key: string, picture: ImageBitmap): void {
  const { thumbs } = useTakePictures.getState()
  const thumb = scaled(picture, THUMB_PX).toDataURL('image/jpeg', 0.85)
  useTakePictures.setState({ thumbs: latest({ ...without(thumbs, key), [key]: thumb }) })
}

function without(thumbs: TakePictures['thumbs'], key: string): TakePictures['thumbs'] {
  const { [key]: _, ...rest } = thumbs
  return rest
}

const latest = (thumbs: TakePictures['thumbs']): TakePictures['thumbs'] =>
  Object.fromEntries(Object.entries(thumbs).slice(-MOST))

function scaled(from: ImageBitmap, height: number): HTMLCanvasElement {
  const to = document.createElement('canvas')
  to.height = height
  to.width = Math.max(1, Math.round((from.width * height) / from.height))
  to.getContext('2d')?.drawImage(from, 0, 0, to.width, to.height)
  return to
}
