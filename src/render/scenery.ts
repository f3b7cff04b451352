import type { Texture } from 'three'
import type { Vec3 } from '../space'
import type { Look } from './carried-pass'
import type { PixelBox } from './eye-boxes'
import type { GTextures } from './g-buffer'

/** What a batch is shaded over. */
export interface Scenery {
  readonly g: GTextures
  readonly objects: Texture
  /** The look that vertices carry their light to; or, of places that have no vertices, their bounce alone. */
  readonly carried: Look | Texture | null
  readonly sourceIndex: number
  /** Midpoints of the sitters' eyes. */
  readonly eyes: readonly Vec3[]
  /** Pixels among which all of the eyes are that show. */
  readonly eyeBoxes: readonly PixelBox[]
  /** So far out along their normals the sitters' places are put before a shadow map is asked, m. */
  readonly liftM: number
}

export const isLook = (carried: Scenery['carried']): carried is Look => carried !== null && 'worldToClip' in carried
