import { projectToFrame } from '../../camera'
import { CROP_PX, cropScale, FRAME_PX, type Look, type Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import { contactDesk, finenessOf } from '../contact/contact-desk'
import { useDerivedNow } from '../derived'
import type { Beside } from '../session-types'
import { currentSitting } from '../store'
import { stillOf, useTakePictures } from './pictures'
import { pictureKey } from './take'

/** A part of a picture, as a square share of its sides from its upper left corner. */
interface Part {
  readonly x: number
  readonly y: number
  readonly share: number
}

/** What stands for a set in a split picture until it is drawn for it. */
export interface FirstPicture {
  readonly image: ImageBitmap | HTMLCanvasElement
  readonly part: Part
  /** As that of what is drawn (finenessOf), of the part that is seen. */
  readonly fineness: number
}

export const WHOLE: Part = { x: 0, y: 0, share: 1 }

/** The set as it was last in sight or drawn beside the page, whole, or the part of it that a crop shows; null: neither. */
export function firstPicture({ name, sitting }: NonNullable<Beside>, look: Look): FirstPicture | null {
  const now = currentSitting()
  const { rig } = useDerivedNow.getState()
  const part = look === 'camera' ? WHOLE : rig && isFramedAlike(now, sitting) ? cropPart(rig, look) : null
  if (!part) return null
  const take = now.takes.find((one) => one.name === name)
  const still = take ? stillOf(pictureKey(take)) : null
  const drawn = contactDesk.drawn(sitting, 'camera')
  const [best] = [
    { image: still?.canvas, fineness: still ? finenessOf({ bitmap: still.canvas, samples: still.samples }) : 0 },
    { image: drawn?.bitmap, fineness: drawn ? finenessOf(drawn) : 0 },
  ].sort((a, b) => b.fineness - a.fineness)
  return best?.image ? { image: best.image, part, fineness: best.fineness * part.share ** 2 } : null
}

/** The small picture of a take that the device kept; null: it is no take, or has none yet. */
export function thumbOf({ name }: NonNullable<Beside>): string | null {
  const take = currentSitting().takes.find((one) => one.name === name)
  return (take && useTakePictures.getState().thumbs[pictureKey(take)]) ?? null
}

/** Camera and sitter stand as in the set in hand, so crops of both show the same part. */
const isFramedAlike = (a: Sitting, b: Sitting): boolean =>
  JSON.stringify([a.camera, a.sitters]) === JSON.stringify([b.camera, b.sitters])

/** What of the camera's picture a crop shows, but for the little that the lens turns; null: it looks elsewhere. */
function cropPart(rig: Rig, look: Look): Part | null {
  if (look !== 'eye' && look !== 'cheek') return null
  const at = projectToFrame(cropScale(rig, look).centre, rig.view.frame, rig.view)
  const share = CROP_PX[look] / FRAME_PX
  return at && { x: (1 + at.x - share) / 2, y: (1 - at.y - share) / 2, share }
}
