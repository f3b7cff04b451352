import { create } from 'zustand'
import type { Sitting } from '../../sitting'
import { useDerivedNow } from '../derived'
import type { PictureDetail } from '../picture/desk'
import { currentSitting, pictureBy, useStore } from '../store'
import { pictureKey, shows, takeShown } from './take'

/** Small pictures of takes by their key (take.ts), which the device keeps. */
interface TakePictures {
  readonly thumbs: Readonly<Record<string, string>>
}

export const useTakePictures = create<TakePictures>(() => ({ thumbs: {} }))

/** A take as it was last in sight whole: what stands for it while it is drawn anew. */
interface Still {
  readonly canvas: HTMLCanvasElement
  /** Of each source. */
  readonly samples: number
}
/** By their key, oldest first, for as long as the page is open. */
const stills = new Map<string, Still>()
const MOST_STILLS = 6
const STILL_PX = 720

export const stillOf = (key: string): Still | null => stills.get(key) ?? null

/** Pixels of a thumbnail's height: twice what the page shows. */
const THUMB_PX = 96
/** The device keeps this many; the oldest go. */
const MOST = 64

/** Keeps a small copy of the picture of every take that is in sight, also of one that is kept when it has long been drawn. Gives back what ends it. */
export function watchTakes(): () => void {
  const settled = exposureFollows()
  let last: (Still & { readonly sitting: Sitting }) | null = null
  const keep = (sitting: Sitting) => {
    const take = takeShown(sitting)
    if (!take || !last || !shows(last.sitting, take)) return
    keepThumb(pictureKey(take), last.canvas)
    keepStill(pictureKey(take), last)
  }
  const pictured = (event: Event) => {
    const { sitting, look, samples, isWeighed, copy } = (event as CustomEvent<PictureDetail>).detail
    // A take is kept as the camera has it: by flash, and sharp.
    const { blurred, byModelling } = pictureBy(useStore.getState().session)
    if (blurred || byModelling || !copy || samples === 0 || look !== 'camera') return
    if (sitting !== currentSitting() || !isWeighed || !settled.now()) return
    last = { sitting, samples, canvas: scaled(copy, Math.min(copy.height, STILL_PX)) }
    keep(sitting)
  }
  const stop = useStore.subscribe(({ history: { present } }, before) => {
    if (present.takes !== before.history.present.takes) keep(present)
  })
  document.addEventListener('picture', pictured)
  return () => {
    document.removeEventListener('picture', pictured)
    stop()
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

function keepStill(key: string, still: Still): void {
  stills.delete(key)
  stills.set(key, still)
  for (const oldest of [...stills.keys()].slice(0, -MOST_STILLS)) stills.delete(oldest)
}

export function keepThumb(key: string, picture: ImageBitmap | HTMLCanvasElement): void {
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

function scaled(from: ImageBitmap | HTMLCanvasElement, height: number): HTMLCanvasElement {
  const to = document.createElement('canvas')
  to.height = height
  to.width = Math.max(1, Math.round((from.width * height) / from.height))
  to.getContext('2d')?.drawImage(from, 0, 0, to.width, to.height)
  return to
}
