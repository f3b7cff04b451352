import { BOTTOM_Y } from './data/torso'
import { type Field, smoothMax, smoothStep } from './solids'
import { torso } from './torso'

const CLOTH_OFFSET = 4
const RIB_WIDTH = 13
const RIB_HEIGHT = 1.4

/** Height over the tilted plane of the neckline, mm; negative on the cloth's side. */
export const aboveNeckline = (y: number, z: number): number => (y + 156 + (z + 90) * 0.5) * 0.894

/** A plain crew-neck top: the torso grown by the cloth, cut at the neckline, with a knitted rib. Closed. */
export const garmentField: Field = (x, y, z) => {
  const above = aboveNeckline(y, z)
  const rib = RIB_HEIGHT * smoothStep(-RIB_WIDTH - 3.5, -RIB_WIDTH + 3.5, above)
  const cloth = smoothMax(torso(Math.abs(x), y, z) - CLOTH_OFFSET - rib, above, 3.2)
  return smoothMax(cloth * 0.95, BOTTOM_Y + 2 - y, 10)
}
