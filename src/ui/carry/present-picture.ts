import { greyed } from '../../camera'
import type { Sitting } from '../../sitting'
import { type PictureState, useDerivedNow } from '../derived'
import type { PictureDetail } from '../picture/desk'
import { currentSitting, pictureBy, useStore } from '../store'

let kept: { readonly sitting: Sitting; readonly canvas: HTMLCanvasElement; readonly state: PictureState } | null = null

/** Keeps a copy of the picture as the camera has it. Gives back what ends it. */
export function watchPicture(): () => void {
  const take = (event: Event) => {
    const { sitting, look, isWeighed, copy } = (event as CustomEvent<PictureDetail>).detail
    const { session } = useStore.getState()
    const { byModelling } = pictureBy(session)
    if (!copy || look !== 'camera' || !isWeighed || byModelling || session.solo !== null) return
    const canvas = kept?.canvas ?? document.createElement('canvas')
    if (canvas.width !== copy.width) canvas.width = copy.width
    if (canvas.height !== copy.height) canvas.height = copy.height
    canvas.getContext('2d', { willReadFrequently: true })?.drawImage(copy, 0, 0)
    kept = { sitting, canvas, state: useDerivedNow.getState().picture }
  }
  document.addEventListener('picture', take)
  return () => document.removeEventListener('picture', take)
}

/** The picture of the present sitting as far as it is drawn; null: it was not seen yet as the camera has it. */
export const presentPicture = (): HTMLCanvasElement | null => (kept?.sitting === currentSitting() ? kept.canvas : null)

/** That the kept picture was not drawn to its end, in words; null: it was. */
export function roughWords(): string | null {
  const picture = kept?.state ?? useDerivedNow.getState().picture
  if (picture.kind === 'finished') return null
  return 'samples' in picture ? `still rough, ${picture.samples} samples` : 'still rough'
}

/** Red, green and blue of a canvas, rows from the top, no wider than so many pixels; grey: by their luminance. */
export function pixelsOf(from: HTMLCanvasElement, mostWidth: number, grey: boolean) {
  const width = Math.min(mostWidth, from.width)
  const height = Math.round((from.height * width) / from.width)
  const canvas = document.createElement('canvas')
  canvas.width = width
  canvas.height = height
  const context = canvas.getContext('2d', { willReadFrequently: true })!
  context.imageSmoothingQuality = 'high'
  context.drawImage(from, 0, 0, width, height)
  const { data } = context.getImageData(0, 0, width, height)
  const rgb = new Uint8Array(width * height * 3)
  for (let i = 0; i < width * height; i++) rgb.set(data.subarray(4 * i, 4 * i + 3), 3 * i)
  return { width, height, rgb: grey ? greyed(rgb) : rgb }
}
