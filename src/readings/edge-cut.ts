import { type EdgeRim, edgeSpread } from '../meter'
import { type EdgePlace, edgePlace, type Rig } from '../rig'
import { add, addScaled, cross, dot, scale, type Vec3 } from '../space'

/** A cut across the edge of a shadow, and how the light rises along it by the closed form: metres, counted square to the light. */
export interface EdgeCut {
  readonly of: EdgePlace['of']
  readonly letter: string
  /** Of the key's light, all that passes a straight edge: width of what is neither in full shadow nor in full light. */
  readonly fullM: number
  readonly tenToNinetyM: number
  /** Share of the key that is seen so far from the middle ray, towards the light. */
  readonly rise: readonly { readonly atM: number; readonly share: number }[]
  /** Where a place of the cut lies on the surface, world; aside: along the edge, metres. */
  place(atM: number, asideM?: number): Vec3
}

/** Places on the surface by how far they lie from the middle ray, metres square to the light: across the edge, and along it. */
export function placesAcross(
  { at, normal }: EdgePlace,
  { axis, across }: Pick<EdgeRim, 'axis' | 'across'>,
): EdgeCut['place'] {
  // A step across the light lands where it meets the surface, farther along the light or nearer.
  const onSurface = (step: Vec3) => addScaled(step, axis, -dot(step, normal) / dot(axis, normal))
  const [step, aside] = [onSurface(across), onSurface(cross(axis, across))]
  return (atM, asideM = 0) => add(at, add(scale(step, atM), scale(aside, asideM)))
}

const SHARES = Array.from({ length: 41 }, (_, i) => i / 40)

/** null: there is no edge to look at. */
export function edgeCut(rig: Rig): EdgeCut | null {
  const place = edgePlace(rig)
  const spread = place && edgeSpread(place.key, place.edge, place.lean)
  if (!place || !spread) return null
  const { gapM } = place
  return {
    of: place.of,
    letter: place.key.letter,
    fullM: spread.full * gapM,
    tenToNinetyM: spread.tenToNinety * gapM,
    // A place beyond the middle ray looks past the edge at what lies to the other side of the source: all but its lowest share.
    rise: SHARES.map((share) => ({ share, atM: -gapM * spread.slopeAt(1 - share) })),
    place: placesAcross(place, spread),
  }
}

/** Share of the key at a place of the cut, from the rise; 0 before it and 1 past it. */
export function shareAt(rise: EdgeCut['rise'], atM: number): number {
  const next = rise.findIndex((point) => point.atM >= atM)
  if (next < 0) return 1
  const [a, b] = [rise[next - 1], rise[next]!]
  if (!a) return 0
  return a.share + ((b.share - a.share) * (atM - a.atM)) / (b.atM - a.atM || 1)
}

/** What was measured along a cut: luminance, whatever its unit. */
export interface Measured {
  readonly atM: number
  readonly luminance: number
}

/** The measured rise on the scale of the closed form, and how the two agree. */
export interface Fitted {
  readonly points: readonly { readonly atM: number; readonly share: number }[]
  /** Root mean square of the difference, as a share. */
  readonly rms: number
  /** Between the places where it passes 10 and 90 %, metres; null: it does not pass both. */
  readonly tenToNinetyM: number | null
}

/**
 * The two unknown of a picture, the light that falls in the shadow as well and how bright the key comes out, are those that bring the
 * measured rise nearest to the closed form (least squares); its shape is left to the picture. null: it does not rise.
 */
export function fitted(measured: readonly Measured[], rise: EdgeCut['rise']): Fitted | null {
  const shares = measured.map(({ atM }) => shareAt(rise, atM))
  const n = measured.length
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / n
  const [meanShare, meanLight] = [mean(shares), mean(measured.map(({ luminance }) => luminance))]
  const co = measured.reduce((sum, { luminance }, i) => sum + (luminance - meanLight) * (shares[i]! - meanShare), 0)
  const own = shares.reduce((sum, share) => sum + (share - meanShare) ** 2, 0)
  if (!(n >= LEAST_POINTS && own > 0 && co > 0)) return null
  const gain = co / own
  const points = measured.map(({ atM, luminance }, i) => ({
    atM,
    share: meanShare + (luminance - meanLight) / gain,
    form: shares[i]!,
  }))
  const [low, high] = [passes(points, 0.1), passes(points, 0.9)]
  return {
    points,
    rms: Math.sqrt(mean(points.map(({ share, form }) => (share - form) ** 2))),
    tenToNinetyM: low === null || high === null ? null : high - low,
  }
}
const LEAST_POINTS = 8

/** Where a rise passes a level; noise may let it pass more than once: then midway between first and last. */
function passes(points: Fitted['points'], level: number): number | null {
  const places = points.slice(1).flatMap((b, i) => {
    const a = points[i]!
    if (a.share < level === b.share < level) return []
    return [a.atM + ((b.atM - a.atM) * (level - a.share)) / (b.share - a.share)]
  })
  return places.length === 0 ? null : (places[0]! + places.at(-1)!) / 2
}
