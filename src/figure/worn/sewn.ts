import { seamsAt } from '../sculpt/garment'
import type { FigurePart } from '../types'

const MM = 1000

/** The top with its seams: functions of the place, so they are worked out when a file is read and cost it no bytes. */
export function withSeams(part: FigurePart): FigurePart {
  const { positions: p } = part.mesh
  const seams = new Float32Array((p.length / 3) * 4)
  for (let v = 0; v * 3 < p.length; v++) seams.set(seamsAt(p[v * 3] * MM, p[v * 3 + 1] * MM, p[v * 3 + 2] * MM), v * 4)
  return { ...part, seams }
}
