import { illuminanceFromIntensity } from './falloff'
import { solidAngleOfZone } from './solidAngle'
import type { Candela, Lux, Metres, Radians } from './units'

/**
 * Flux from a table of intensity against the angle from the axis, the same all round: Φ = 2π·∫I(t) sin t dt. Three
 * rules, since reports use all three and they differ by tenths of a percent. Angles in radians, ascending, lm out.
 */

/** Mean of the two ends of each zone times its solid angle [IESHandbook]. */
export const fluxByZones = (angles: readonly Radians[], candela: readonly Candela[]): number =>
  zones(angles).reduce(
    (sum, [from, to], i) => sum + ((candela[i]! + candela[i + 1]!) / 2) * solidAngleOfZone(from, to),
    0,
  )

/** Intensity taken as linear between entries, integrated exactly: ∫(p + q·t) sin t = −(p + q·t)·cos t + q·sin t. */
export const fluxByLines = (angles: readonly Radians[], candela: readonly Candela[]): number =>
  zones(angles).reduce((sum, [from, to], i) => {
    const slope = (candela[i + 1]! - candela[i]!) / (to - from)
    const ends = candela[i]! * Math.cos(from) - candela[i + 1]! * Math.cos(to)
    return sum + 2 * Math.PI * (ends + slope * (Math.sin(to) - Math.sin(from)))
  }, 0)

/**
 * The old handbook rule: intensity at the middle of each zone of one width times its solid angle. Too high by
 * midZoneExcess for a cosine distribution.
 */
export const fluxByMidZones = (zoneWidth: Radians, candelaAtMiddles: readonly Candela[]): number =>
  candelaAtMiddles.reduce((sum, value, i) => sum + value * solidAngleOfZone(i * zoneWidth, (i + 1) * zoneWidth), 0)

/**
 * The factor by which fluxByMidZones overrates a cosine distribution: Σ cos m·2π(cos a − cos b) = 2π·sin(h/2)·Σ sin 2m,
 * and Σ sin((2k+1)h) = sin²(nh)/sin h, so π/cos(h/2) where n zones fill 90°. Other widths leave a piece over.
 */
export const midZoneExcess = (zoneWidth: Radians): number => 1 / Math.cos(zoneWidth / 2)

function zones(angles: readonly Radians[]): readonly (readonly [Radians, Radians])[] {
  return angles.slice(1).map((to, i) => [angles[i]!, to] as const)
}

/** Of a point on the floor: x beside the luminaire's foot, h under it. */
export const angleFromNadir = (x: Metres, h: Metres): Radians => Math.atan2(x, h)

/** Horizontal illuminance there from a luminaire that hangs face down: I(t)·cos t/d². */
export function illuminanceOnFloor(intensity: (angle: Radians) => Candela, x: Metres, h: Metres): Lux {
  const angle = angleFromNadir(x, h)
  return illuminanceFromIntensity(intensity(angle), Math.hypot(x, h), angle)
}

/** EULUMDAT tabulates cd per 1000 lm of its lamps [Stockmar90]. */
export const intensityFromPerKilolumen = (perKilolumen: number, lampFlux: number): Candela =>
  (perKilolumen * lampFlux) / 1000
