import { brush } from './curves'
import * as data from './data/jaw'

const angle = brush(data.JAW_ANGLE, -1.7, 9.5)
const under = brush(data.UNDER_JAW, 1, 9)
const chin = brush(data.CHIN, -1, 8)
const besideChin = brush(data.BESIDE_CHIN, 0.55, 6)
const lipFold = brush(data.LIP_FOLD, 1, 4)

/** The face with the jaw's angle and border, and a chin of its own between lip and jaw. x ≥ 0. */
export function withJaw(face: number, x: number, y: number, z: number): number {
  if (y > -60) return face
  return face + angle(x, y, z) + under(x, y, z) + chin(x, y, z) + besideChin(x, y, z) + lipFold(x, y, z)
}
