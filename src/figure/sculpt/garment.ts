import { BOTTOM_Y } from './data/torso'
import { type Field, smoothMax } from './solids'
import { torso } from './torso'

const CLOTH_OFFSET = 4

/** Height over the tilted plane of the neckline, mm; negative on the cloth's side. */
const aboveNeckline = (y: number, z: number): number => (y + 156 + (z + 90) * 0.5) * 0.894

/** A plain crew-neck top: the torso grown by the cloth, cut at the neckline, with a rounded hem. Closed. */
export const garmentField: Field = (x, y, z) => {
  const above = aboveNeckline(y, z)
  const cloth = smoothMax(torso(Math.abs(x), y, z) - CLOTH_OFFSET, above, 4.5)
  return smoothMax(cloth * 0.95, BOTTOM_Y + 2 - y, 10)
}
