import { directionThrough } from '../camera'
import type { MeterScene, Probe } from '../meter'
import { arrivalsAt, litSources, received } from '../meter'
import { fNumberFromLuminousExposure, stopsBetween } from '../photometry'
import type { Sitting } from '../sitting'
import { addScaled, cross, dot, normalize, scale, type Vec3 } from '../space'
import { tenthsText } from './metering'
import { figure } from './words'

/** Direct light, a disc flat on the backdrop, at the document's powers and `factorStops` over them. */
export interface GridPlace {
  readonly at: Vec3
  /** lx·s. */
  readonly h: number
}

export interface GridAnswer {
  readonly columns: number
  readonly rows: number
  /** Row by row from the top of the frame; null: no backdrop there, or something stands before it. */
  readonly places: readonly (GridPlace | null)[]
  readonly sentence: string
}

export interface GridInput {
  readonly sitting: Sitting
  readonly scene: MeterScene
  /** Stops by which re-exposure raises all sources. */
  readonly factorStops: number
  /** Default: 40 by 25, 1,000 places. */
  readonly columns?: number
  readonly rows?: number
}

export const GRID_PLACES = { columns: 40, rows: 25 } as const
const LEAVE_M = 1e-3
/** So much of the places is counted as even: what lies outside it on either side is a twentieth. */
const MOST = 0.9

/**
 * A meter's readings at many places of the backdrop that the frame takes in, a place a step, so that whoever waits may leave at
 * once. Direct light alone: what the room sends back is even over a backdrop and is in its nine places.
 */
export function* gridSteps(input: GridInput): Generator<undefined, GridAnswer> {
  const { sitting, scene, factorStops, columns = GRID_PLACES.columns, rows = GRID_PLACES.rows } = input
  const sources = litSources(scene.rig)
  const places: (GridPlace | null)[] = []
  for (let i = 0; i < columns * rows; i++) {
    const probe = onBackdrop(
      scene,
      (2 * ((i % columns) + 0.5)) / columns - 1,
      1 - (2 * (Math.floor(i / columns) + 0.5)) / rows,
    )
    const h = (probe: Probe) =>
      sources.reduce(
        (sum, source) =>
          sum +
          received(arrivalsAt(scene, source, probe.point, 'sketch'), probe.normal, 'disc') * source.axialIntensity,
        0,
      )
    places.push(probe && { at: probe.point, h: h(probe) * 2 ** factorStops })
    yield
  }
  return { columns, rows, places, sentence: sentenceOf(sitting, places) }
}

/** Where a ray of the frame (−1 to 1 across and up) meets the backdrop before anything else. */
function onBackdrop({ rig: { view }, caster, bodies }: MeterScene, x: number, y: number): Probe | null {
  const direction = directionThrough(x, y, view.frame, view)
  const hit = caster.nearest(view.frame.origin, direction)
  const meaning = hit && bodies.meanings[hit.bodyIndex]
  if (!hit || meaning?.kind !== 'surface' || meaning.surface.kind !== 'backdrop') return null
  const { halfU, halfV } = meaning.surface.rect
  const front = normalize(cross(halfU, halfV))
  const normal = dot(front, direction) < 0 ? front : scale(front, -1)
  return { point: addScaled(addScaled(view.frame.origin, direction, hit.distance), normal, LEAVE_M), normal }
}

function sentenceOf({ camera }: Sitting, places: readonly (GridPlace | null)[]): string {
  const lit = places.flatMap((place) => (place && place.h > 0 ? [place.h] : [])).sort((a, b) => a - b)
  const seen = places.filter((place) => place !== null).length
  if (seen === 0) return 'The camera sees nothing of a backdrop: there is no place to read.'
  if (lit.length < seen) return `${seen - lit.length} of ${seen} places of the backdrop get no direct light.`
  const f = (h: number) => tenthsText(fNumberFromLuminousExposure(h, camera.iso))
  const [low, high] = [lit[0]!, lit.at(-1)!]
  const cut = Math.floor(((1 - MOST) / 2) * lit.length)
  const inner = stopsBetween(lit[cut]!, lit[lit.length - 1 - cut]!)
  return `${lit.length} places of the backdrop in the frame, direct light: ${f(low)} to ${f(high)}, ${figure(stopsBetween(low, high), 1)} stops; nine tenths of them within ${figure(inner, 1)}.`
}
