/**
 * What the white of an eye looks like, and how lids shade an eyeball. Twin of src/render/shaders/eye-white.glsl, which draws it.
 * Millimetres. Colours and densities by eye; vessels run from the corners towards the cornea and end short of it.
 */
import { dot, normalize, type Vec3 } from '../space'
import { ringNoise } from './iris'
import { lidMargins } from './sculpt/eye'
import { mix, smoothStep } from './sculpt/solids'

/** Of the white far from the cornea, and of a vessel in it, per band. */
const CORNER = [0.94, 0.83, 0.8] as const
const VESSEL = [0.9, 0.42, 0.38] as const
type Bands = readonly [number, number, number]

/** Of the skin's reflectance: what lids throw back on the ball that they hide the light from, per band. By eye. */
const LID_SHARE = [0.82, 0.66, 0.68] as const
/** The same of a sitter. skin: reflectance. */
export const lidTone = (skin: Bands): Bands => [skin[0] * LID_SHARE[0], skin[1] * LID_SHARE[1], skin[2] * LID_SHARE[2]]
/** How far lids stand off the ball, the upper one with its lashes. */
const LID_HEIGHT = { upper: 2.2, lower: 0.9 } as const
/** Share of the light that comes round inside the white, where both lids meet over it and would leave it none of its own. By eye. */
const ROUND_WITHIN = 0.25
/** Share of the white that vessels cover, where they are too fine to be drawn. */
const COVERED = 0.12

/**
 * Beside the cornea the dark behind it shows through the white, out to there: or its far edge would stand out as a pale crescent. Per band,
 * so that beside warm skin it does not look blue. By eye.
 */
const LIMBUS = [0.635, 0.62, 0.6] as const
const LIMBUS_TO = 7.4

/**
 * How far a place of the ball lies in the moist fold in the corners of the eye, which faces ahead and is of their colour: or the white would
 * end as if cut off. p: on the ball, along its axes, x away from the nose, where there is less of it; the fold's skin grows on the white and
 * is drawn out as the eye turns away. By eye.
 */
export function foldShare([x, y, z]: Vec3): number {
  const r = z > 0 ? Math.hypot(x, y) : FOLD_TO
  const share = smoothStep(FOLD_FROM, FOLD_TO, r) * smoothStep(0.4, 0.95, Math.abs(x) / Math.max(r, 1e-3))
  return x < 0 ? share : OUTER_FOLD * share
}
const [FOLD_FROM, FOLD_TO] = [6.6, 11.8]
const OUTER_FOLD = 0.2

const line = (v: number, half: number): number => 1 - smoothStep(0, half, Math.abs(v - 0.5))

/** Share of a place of the white that vessels cover. */
function vessels(turn: number, r: number): number {
  const wander = 0.03 * (ringNoise(turn, 19, r * 0.9, 8) - 0.5)
  const coarse = line(ringNoise(turn + wander, 26, r * 0.3, 9), 0.07)
  const fine = line(ringNoise(turn - wander, 61, r * 0.55, 10), 0.1)
  return Math.min(1, 0.8 * coarse * smoothStep(0.4, 0.6, ringNoise(turn, 7, r * 0.3, 11)) + 0.35 * fine)
}

/**
 * Reflectance of a place of the white as a multiple of its own. p: on the ball, along its axes; footprintMm: of a pixel.
 */
export function whiteTint(p: Vec3, footprintMm: number): readonly [number, number, number] {
  if (p[2] <= 0) return [...CORNER]
  const r = Math.hypot(p[0], p[1])
  const towardsCorner = smoothStep(0.4, 0.95, Math.abs(p[0]) / Math.max(r, 1e-3))
  const redness = smoothStep(5.8, 9.4, r) * mix(0.3, 1, towardsCorner)
  const drawn = 1 - smoothStep(0.08, 0.2, footprintMm)
  const turn = Math.atan2(p[1], p[0]) / (2 * Math.PI) + 0.5
  const covered =
    mix(COVERED, drawn > 0 ? vessels(turn, r) : 0, drawn) * smoothStep(6.4, 10, r) * mix(0.35, 0.9, towardsCorner)
  const dusk = smoothStep(LIMBUS_TO, 5.6, r)
  return [0, 1, 2].map(
    (k) => mix(1, LIMBUS[k], dusk) * mix(1, CORNER[k], redness) * mix(1, VESSEL[k], covered),
  ) as unknown as [number, number, number]
}

/**
 * What is left of the light on a ball at a distance inside a lid's margin: a strip of a height square to a surface fills
 * (1 − d/√(d² + h²))/2 of its view (Lambert; in all handbooks of radiant heat as two plates at right angles, one of them endless).
 */
const stripShare = (inside: number, height: number): number =>
  0.5 * (1 - inside / Math.sqrt(inside * inside + height * height))

/** The place in front view as if the lid had not gone up by an angle with the eye, radians: its height. */
const heightAtRest = ([, y, z]: Vec3, turn: number): number => y * Math.cos(turn) - z * Math.sin(turn)

/** How far a place lies inside the margin of the upper and of the lower lid, as lidShade has p, upper and lower. */
function insideLids(p: Vec3, upper: number, lower: number): { readonly under: number; readonly over: number } {
  const margins = lidMargins(p[0])
  return {
    under: Math.max(0, margins.upper - heightAtRest(p, upper)),
    over: Math.max(0, heightAtRest(p, lower) - margins.lower),
  }
}

/**
 * Factor per band on what a place of an eyeball sends back, for the lids beside it. p: from the ball's middle along the axes of the
 * head, x away from the nose; upper, lower: how far each lid has turned up with the eye, radians; lid: lidTone.
 */
export function lidShade(p: Vec3, upper: number, lower: number, lid: Bands): Bands {
  const { under, over } = insideLids(p, upper, lower)
  const strips = Math.min(1, stripShare(under, LID_HEIGHT.upper) + stripShare(over, LID_HEIGHT.lower))
  const hidden = strips * (1 - ROUND_WITHIN * strips ** 3)
  return [1 - hidden * (1 - lid[0]), 1 - hidden * (1 - lid[1]), 1 - hidden * (1 - lid[2])]
}

/** Past a lid's edge as far as its lashes soften it, as shares of its height. By eye. */
const [EDGE_FROM, EDGE_TO] = [0.5, 1.5]

/** Share of a mirrored look that gets past a lid at a distance inside its margin: by how high over the ball it is there. */
function overEdge(distance: number, height: number, out: number, along: number): number {
  return along > 0 ? smoothStep(EDGE_FROM * height, EDGE_TO * height, (distance * out) / along) : 1
}

/** Share of what the film on a place of an eyeball mirrors that lies past the lids. ray: unit, where the look goes on; else as lidShade. */
export function lidPass(p: Vec3, ray: Vec3, upper: number, lower: number): number {
  const { under, over } = insideLids(p, upper, lower)
  const normal = normalize(p)
  const out = dot(ray, normal)
  const up = ray[1] - out * normal[1]
  return overEdge(under, LID_HEIGHT.upper, out, up) * overEdge(over, LID_HEIGHT.lower, out, -up)
}
