import { add, addScaled, cross, dot, lerp, normalize, scale, subtract, type Vec3 } from '../../space'
import type { FrameKind } from './fields'
import {
  BRIDGE_ANGLE,
  type Fit,
  FRAME_SIZES,
  type FrameSizes,
  HINGE_ANGLE,
  outwardAt,
  rimPoint,
  rimWidthAt,
} from './fit'
import type { SpectacleLens } from './lens'
import { FrameMesh, type Squareness, type Station } from './tube'

const RIM_STATIONS = 72
const MM = 0.001

/** The frame as closed meshes: rims, bridge, pads on their arms, temples. Head frame, metres. */
export function frameMesh(fit: Fit, kind: FrameKind): ReturnType<FrameMesh['mesh']> {
  const sizes = FRAME_SIZES[kind]
  const square: Squareness = kind === 'metal' ? 2 : 4
  const made = new FrameMesh()
  made.ring(rim(fit.lens, sizes), square)
  made.rod(temple(fit, sizes), square)
  made.rod(pad(fit), 2)
  made.rod(arm(fit, sizes), 2)
  made.mirrored()
  made.rod(bridge(fit, sizes), square)
  return made.mesh()
}

function rim(lens: SpectacleLens, sizes: FrameSizes): readonly Station[] {
  const { x, y, z } = lens.frame
  return Array.from({ length: RIM_STATIONS }, (_, i) => {
    const angle = (2 * Math.PI * i) / RIM_STATIONS
    const width = rimWidthAt(sizes, angle)
    const [nx, ny] = outwardAt(lens, angle)
    return {
      at: rimPoint(lens, angle, width / 2, sizes.lip - sizes.rimDepth / 2),
      u: add(scale(x, nx), scale(y, ny)),
      v: z,
      halfU: width / 2,
      halfV: sizes.rimDepth / 2,
    }
  })
}

const UP: Vec3 = [0, 1, 0]

/** Sections square to a line of points, their v as nearly up as can be. */
function along(points: readonly Vec3[], sizeAt: (i: number) => readonly [number, number], up = UP): readonly Station[] {
  return points.map((at, i) => {
    const way = normalize(subtract(points[Math.min(i + 1, points.length - 1)], points[Math.max(0, i - 1)]))
    const v = normalize(addScaled(up, way, -dot(up, way)))
    const [halfU, halfV] = sizeAt(i)
    return { at, u: cross(v, way), v, halfU, halfV }
  })
}

const BRIDGE_STEPS = 12

function bridge({ lens, bridge: middle }: Fit, sizes: FrameSizes): readonly Station[] {
  const left = rimPoint(lens, BRIDGE_ANGLE, sizes.rimWidth / 3, sizes.lip - sizes.rimDepth / 2)
  const points = Array.from({ length: BRIDGE_STEPS + 1 }, (_, i): Vec3 => {
    const t = 1 - (2 * i) / BRIDGE_STEPS
    // Flat in the middle, down and back at the ends.
    const fall = t * t
    return [left[0] * t, middle[1] + (left[1] - middle[1]) * fall, middle[2] + (left[2] - middle[2]) * fall]
  })
  return along(points, () => [0.42 * sizes.rimDepth, sizes.bridgeHeight / 2])
}

/** A pad is so long, wide and thick, half of each. */
const PAD_HALF = [5.5 * MM, 2.8 * MM, 1 * MM] as const
const PAD_STEPS = 8

function pad({ pad: { at, out } }: Fit): readonly Station[] {
  const middle = addScaled(at, out, PAD_HALF[2])
  const long = normalize(addScaled(UP, out, -dot(UP, out)))
  const u = cross(long, out)
  return Array.from({ length: PAD_STEPS + 1 }, (_, i) => {
    const t = (0.98 * (2 * i - PAD_STEPS)) / PAD_STEPS
    const share = Math.sqrt(1 - t * t)
    return {
      at: addScaled(middle, long, t * PAD_HALF[0]),
      ...{ u, v: out, halfU: share * PAD_HALF[1], halfV: share * PAD_HALF[2] },
    }
  })
}

const ARM_ANGLE = (168 * Math.PI) / 180
const ARM_STEPS = 6

/** From within the rim to the middle of the pad. */
function arm({ lens, pad: { at, out } }: Fit, sizes: FrameSizes): readonly Station[] {
  const from = rimPoint(lens, ARM_ANGLE, sizes.rimWidth / 3, sizes.lip - 0.7 * sizes.rimDepth)
  const to = addScaled(at, out, 1.4 * PAD_HALF[2])
  const points = Array.from({ length: ARM_STEPS + 1 }, (_, i) => lerp(from, to, i / ARM_STEPS))
  return along(points, () => [sizes.armRadius, sizes.armRadius])
}

const CORNER = 4

/** The end piece from within the rim outwards, round the corner, the temple to the ear and down behind it. */
function temple({ lens, temple: line, toEar }: Fit, sizes: FrameSizes): readonly Station[] {
  const from = rimPoint(lens, HINGE_ANGLE, sizes.rimWidth / 3, sizes.lip - sizes.rimDepth / 2)
  const [hinge] = line
  const corner: Vec3 = [hinge[0], from[1], from[2]]
  // A quarter turn, from the front's plane into the side's.
  const turn = Array.from({ length: CORNER + 1 }, (_, i) => {
    const t = i / CORNER
    return lerp(lerp(from, corner, t), lerp(corner, hinge, t), t)
  })
  const points = [...turn, ...line.slice(1)]
  const height = sizes.templeHeight / 2
  return along(points, (i) => {
    const past = Math.max(0, i - CORNER - toEar) / (points.length - 1 - CORNER - toEar)
    // Somewhat slimmer towards the ear, and rounded off at the end.
    const share = (i < CORNER ? 1 : 1 - 0.25 * Math.min(1, (i - CORNER) / toEar)) * (past >= 1 ? 0.6 : 1)
    return [sizes.templeThickness / 2, height * share]
  })
}
