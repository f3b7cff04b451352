import { bothHalves, softBrush } from './curves'
import * as data from './data/jaw'

const angle = softBrush(data.JAW_ANGLE, -1.3, 12)
const under = softBrush(data.UNDER_JAW, 0.7, 11)
const chin = softBrush(bothHalves(data.CHIN), -1, 8)
const besideChin = softBrush(data.BESIDE_CHIN, 0.55, 6)
const lipFold = softBrush(bothHalves(data.LIP_FOLD), 1, 4.5)

/** The face with the jaw's angle and border, and a chin of its own between lip and jaw. x ≥ 0. */
export function withJaw(face: number, x: number, y: number, z: number): number {
  // Out of reach of all of them.
  if (y > -36 || z < -95) return face
  return face + angle(x, y, z) + under(x, y, z) + chin(x, y, z) + besideChin(x, y, z) + lipFold(x, y, z)
}
