import { create } from 'zustand'
import type { Look } from '../../rig'
import { useDerivedNow } from '../derived'
import type { PictureDetail } from '../picture/desk'
import { currentSitting, pictureBy, useStore } from '../store'
import { pictureKey, type Take, takeShown } from './take'

/** A copy of the picture of a take, as far as it was drawn. */
export interface Still {
  readonly canvas: HTMLCanvasElement
  readonly samples: number
}

/** Pictures of takes by their key (take.ts): small ones, which the device keeps, and whole ones of each view (stillKey) for this visit. */
interface TakePictures {
  readonly thumbs: Readonly<Record<string, string>>
  readonly stills: ReadonlyMap<string, Still>
}

export const useTakePictures = create<TakePictures>(() => ({ thumbs: {}, stills: new Map() }))

/** Pixels of a thumbnail's height: twice what the page shows. */
const THUMB_PX = 96
/** The device keeps this many thumbnails, a visit this many whole pictures; the oldest go. */
const MOST = { thumbs: 64, stills: 8 }

/** A take's picture in one of the views. */
export const stillKey = (take: Take, look: Look): string => `${pictureKey(take)} ${look}`

/** Copies the picture of every take that is in sight. Gives back what ends it. */
export function watchTakes(): () => void {
  const settled = exposureFollows()
  const take = (event: Event) => {
    const { sitting, look, samples, isWeighed, copy } = (event as CustomEvent<PictureDetail>).detail
    // A take is kept as the camera has it: by flash, and sharp as takes are compared.
    const { blurred, byModelling } = pictureBy(useStore.getState().session)
    if (blurred || byModelling) return
    const isOfNow = sitting === currentSitting() && isWeighed && settled.now()
    if (copy && samples > 0 && isOfNow) keep(copy, samples, look)
  }
  document.addEventListener('picture', take)
  return () => {
    document.removeEventListener('picture', take)
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

function keep(picture: ImageBitmap, samples: number, look: Look): void {
  const take = takeShown(currentSitting())
  if (!take) return
  const key = stillKey(take, look)
  const { stills } = useTakePictures.getState()
  const known = stills.get(key)
  if (known && picture.width <= known.canvas.width && samples < known.samples) return
  const still = { canvas: scaled(picture, picture.height), samples }
  useTakePictures.setState({
    stills: new Map([...[...stills].filter(([other]) => other !== key), [key, still] as const].slice(-MOST.stills)),
  })
  if (look === 'camera') keepThumb(pictureKey(take), picture)
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
  Object.fromEntries(Object.entries(thumbs).slice(-MOST.thumbs))

function scaled(from: ImageBitmap, height: number): HTMLCanvasElement {
  const to = document.createElement('canvas')
  to.height = height
  to.width = Math.max(1, Math.round((from.width * height) / from.height))
  to.getContext('2d')?.drawImage(from, 0, 0, to.width, to.height)
  return to
}
