import type { Lux, Metres, Steradians } from '../units'
import type { Lamp } from './lamps'
import { discRule, gaussLegendre } from './quadrature'

export interface LitSheet {
  readonly widthM: Metres
  readonly heightM: Metres
  readonly lamp: Lamp
  /** On the axis, from the sheet; the lamp looks squarely at it. */
  readonly lampM: Metres
}

/** How a flat sheet is lit by a lamp before it: illuminance at local x, y, per cd·s of the head, and all that lands. */
export function lightOnSheet({ widthM, heightM, lamp, lampM }: LitSheet): {
  readonly illuminance: (xM: number, yM: number) => Lux
  readonly landed: Steradians
} {
  const nodes = discRule(2, 6).map(({ x, y, weight }) => ({ x: x * lamp.radiusM, y: y * lamp.radiusM, weight }))
  const illuminance = (xM: number, yM: number) =>
    nodes.reduce((sum, { x, y, weight }) => {
      const squared = (xM - x) ** 2 + (yM - y) ** 2 + lampM * lampM
      // I₀cosⁿθ·cosθ/d², and cosθ = l/d.
      return sum + (weight * lamp.axialIntensity * (lampM / Math.sqrt(squared)) ** (lamp.exponent + 1)) / squared
    }, 0)
  const rule = gaussLegendre(32)
  const landed = rule.reduce(
    (sum, a) =>
      sum +
      rule.reduce((row, b) => row + a.weight * b.weight * illuminance((a.x * widthM) / 2, (b.x * heightM) / 2), 0),
    0,
  )
  return { illuminance, landed: landed * widthM * heightM }
}
