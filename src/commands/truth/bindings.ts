import type { Bindings } from './binding'
import { cameraAndEye } from './bindings-camera-eye'
import { colourAndSkin } from './bindings-colour-skin'
import { exposure } from './bindings-exposure'
import { materialsFilesSafety } from './bindings-materials-files-safety'
import { radiometry } from './bindings-radiometry'
import { shadowAndSky } from './bindings-shadow-sky'

/** Every record of shared/check-values.json that src/ answers, by id. */
export const BINDINGS: Bindings = {
  ...radiometry,
  ...shadowAndSky,
  ...exposure,
  ...cameraAndEye,
  ...colourAndSkin,
  ...materialsFilesSafety,
}
