import { NowAndThen } from './now-and-then'
import type { InSight } from './types'

/** Copies of a canvas. */
export class Copier extends NowAndThen {
  /** inSight: what the canvas holds; null: it can't be copied just now. */
  constructor(
    canvas: OffscreenCanvas,
    inSight: () => InSight | null,
    copied: (picture: InSight, bitmap: ImageBitmap) => void,
  ) {
    super(() => {
      const picture = inSight()
      if (!picture) return false
      createImageBitmap(canvas).then(
        (bitmap) => copied(picture, bitmap),
        // Lost or changed its size meanwhile: the next picture in sight asks again.
        () => undefined,
      )
      return true
    })
  }
}
