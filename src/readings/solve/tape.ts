import { centreAt, moveSource, placeOf, type Sitting } from '../../sitting'
import type { Vec3 } from '../../space'
import type { Stage } from '../stage'

export interface Found {
  readonly tapeM: number
  readonly centreM: Vec3
  /** What is read there. */
  readonly fNumber: number
}

/** Farther than a portrait is lit from, and nearer than a hand may work, metres. */
const RANGE_M = [0.3, 8] as const
/** Stops; half of what is promised. */
const CLOSE = 0.005
const MOST_STEPS = 14

/** The line of a source out of the eyes: azimuth and elevation held, the tape free. */
export function tapeFor(stage: Stage, sourceId = stage.key?.id ?? '') {
  const { sitting, marks } = stage
  const source = sitting.sources.find(({ id }) => id === sourceId)!
  const place = placeOf(source.centreM, sitting.camera, marks)
  const centre = (tapeM: number): Vec3 => centreAt({ ...place, tapeM }, sitting.camera, marks)
  return {
    tapeM: place.tapeM,
    /** By the secant on log distance against stops, kept between ends that enclose the answer. null: neither end reaches it. */
    search(fNumber: number, read: (moved: Sitting) => number): Found | null {
      const at = (tapeM: number) => {
        const centreM = centre(tapeM)
        const value = read(moveSource(sitting, sourceId, centreM))
        return { tapeM, centreM, value, off: 2 * Math.log2(value / fNumber) }
      }
      let [near, far] = [at(Math.max(RANGE_M[0], 0.05)), at(RANGE_M[1])]
      if (!(near.off >= 0 && far.off <= 0)) return null
      let best = at(between(place.tapeM))
      for (let i = 0; i < MOST_STEPS && !(Math.abs(best.off) < CLOSE); i++) {
        if (best.off > 0) near = best
        else far = best
        const share = Number.isFinite(far.off) ? near.off / (near.off - far.off) : 0.5
        // The secant by turns with halving, so that one end that stays put does not slow it.
        const t = i % 3 === 2 ? 0.5 : Math.min(0.95, Math.max(0.05, share))
        best = at(near.tapeM * (far.tapeM / near.tapeM) ** t)
      }
      return Math.abs(best.off) < 2 * CLOSE ? { tapeM: best.tapeM, centreM: best.centreM, fNumber: best.value } : null
    },
  }
}

const between = (tapeM: number): number => Math.min(RANGE_M[1], Math.max(RANGE_M[0], tapeM))
