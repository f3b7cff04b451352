/**
 * Where the top is sewn. The camera's pass draws it: seamProfile has its twin in src/render/shaders/seams.glsl. Sizes by eye.
 */

import { lazily } from '../lazily'
import { seamsAt } from '../sculpt/garment'
import type { FigurePart } from '../types'

const MM = 1000

/** Half widths of the furrow and of the ridges beside it, how deep and how high they are, mm; and how much of its light the furrow loses. */
const FURROW = { half: 0.7, deep: 0.4, dark: 0.2 } as const
const RIDGE = { half: 3.2, high: 0.22 } as const

/**
 * Across a seam, at a distance of it: slope of the cloth, and the share of its light that it loses. What is narrower than a pixel
 * is spread over it.
 */
export function seamProfile(mm: number, footprintMm: number): { readonly slope: number; readonly dark: number } {
  const furrow = FURROW.half * Math.max(1, footprintMm)
  const ridge = Math.max(RIDGE.half, footprintMm)
  const spread = FURROW.half / furrow
  const deep = spread * Math.exp(-((mm / furrow) ** 2))
  const high = Math.exp(-((mm / ridge) ** 2))
  const slope = 2 * mm * ((FURROW.deep * deep) / furrow ** 2 - (RIDGE.high * high) / ridge ** 2)
  return { slope, dark: FURROW.dark * deep }
}

/** The top with its seams: functions of the place, so they are worked out when a file is read and cost it no bytes. */
export const withSeams = (part: FigurePart): FigurePart => lazily(part, { seams: () => seamsOf(part) })

function seamsOf({ mesh: { positions: p } }: FigurePart): Float32Array {
  const seams = new Float32Array((p.length / 3) * 4)
  for (let v = 0; v * 3 < p.length; v++) seams.set(seamsAt(p[v * 3] * MM, p[v * 3 + 1] * MM, p[v * 3 + 2] * MM), v * 4)
  return seams
}
