import { cross, type Frame, lerp, pointToWorld, radians, type Vec3 } from '../../space'
import type { FigureAsset } from '../types'
import { type FrameKind, frontCurvature, type Glasses } from './fields'
import { outlineAt, type SpectacleLens, sagOf } from './lens'
import { AxisProbe } from './probe'

const MM = 0.001

/** Of an adult's glasses in the boxing system (ISO 8624), 50 □ 18, 39 high; from memory. A narrower head wears smaller ones. */
const LENS_WIDTH = 50 * MM
const LENS_HEIGHT = 39 * MM
const BETWEEN = 18 * MM
/** Breadth over the ears' front at which that size fits: the first sitter's. */
const FITTED_HALF_BREADTH = 71.8 * MM
/** The pupil stands a little over the middle of the lens. Common practice, no source. */
const PUPIL_OVER_MIDDLE = 4 * MM
/** Of the front as a whole, each lens turned outwards: face form angle, usually 0 to 8 (common practice, no source). */
const FACE_FORM_DEG = 5
/**
 * From the back of the lens to the cornea along the line of sight: usual fittings are 12 to 15 mm (B. Santini, The real
 * details of vertex, tilt and wrap, 20/20 Magazine 2015, calls others exceptional). More where a brow asks for it.
 */
export const VERTEX_DISTANCE = 13 * MM
const MOST_VERTEX_DISTANCE = 30 * MM
/** In the middle; of a lens without power everywhere. */
const LENS_THICKNESS = 2 * MM
/** Between rim and skin at least. */
const CLEAR = 1 * MM

/** Sizes of a kind of frame, metres; depth is along the line of sight. */
export interface FrameSizes {
  readonly rimWidth: number
  /** By this share the rim is wider above and outwards, and narrower below and at the nose. */
  readonly heavier: number
  readonly rimDepth: number
  /** The rim's front stands so far before the lens. */
  readonly lip: number
  readonly bridgeHeight: number
  readonly templeHeight: number
  readonly templeThickness: number
  readonly armRadius: number
}
const PLASTIC: FrameSizes = {
  ...{ rimWidth: 3.6 * MM, heavier: 0.3, rimDepth: 4.2 * MM, lip: 0.8 * MM, bridgeHeight: 5 * MM },
  ...{ templeHeight: 6 * MM, templeThickness: 3.4 * MM, armRadius: 1.6 * MM },
}
const WIRE: FrameSizes = {
  ...{ rimWidth: 1.5 * MM, heavier: 0, rimDepth: 2 * MM, lip: 0.4 * MM, bridgeHeight: 1.8 * MM },
  ...{ templeHeight: 2.2 * MM, templeThickness: 1.5 * MM, armRadius: 0.6 * MM },
}
export const FRAME_SIZES: Readonly<Record<FrameKind, FrameSizes>> = { dark: PLASTIC, brown: PLASTIC, metal: WIRE }

/** Where a pair of glasses touches one head: the sitter's left half, the right one being its mirror image. Head frame, metres. */
export interface Fit {
  readonly lens: SpectacleLens
  readonly pivot: Vec3
  /** Middle of the bridge's arch. */
  readonly bridge: Vec3
  /** Middle of the nose pad's skin side, and the skin's outward direction there. */
  readonly pad: { readonly at: Vec3; readonly out: Vec3 }
  /** Middle line of the temple from the hinge to where it bends over the ear, and on to its end behind it. */
  readonly temple: readonly Vec3[]
  /** How many of the temple's points lie before the ear. */
  readonly toEar: number
}

/** The head as a fitter feels it: how far the face comes forward, and how far out its side is. */
interface Head {
  readonly scale: number
  readonly pupil: Vec3
  readonly ear: Vec3
  front(x: number, y: number): number
  side(y: number, z: number): number
}

const heads = new WeakMap<FigureAsset, Head>()

/** Felt once: another frame or tilt on the same head asks the same places. */
function headOf(asset: FigureAsset): Head {
  const head = heads.get(asset) ?? felt(asset)
  heads.set(asset, head)
  return head
}

function felt({ parts, landmarks }: FigureAsset): Head {
  const { mesh } = parts.find(({ name }) => name === 'skin')!
  const ear = landmarks.earLeft.position
  const eye = landmarks.eyeCentreLeft.position
  const before = new AxisProbe(mesh, 2, (x, y, z) => x > -0.01 && x < 0.08 && y > -0.06 && y < 0.05 && z > -0.03)
  const beside = new AxisProbe(mesh, 0, (x, y, z) => x > 0.03 && y > -0.05 && y < 0.06 && z > -0.15 && z < 0.04)
  return {
    scale: ear[0] / FITTED_HALF_BREADTH,
    pupil: [eye[0], eye[1], landmarks.pupilLeft.position[2]],
    ear,
    front: (x, y) => before.most(Math.abs(x), y),
    side: (y, z) => beside.most(z, y),
  }
}

/** Fits a pair of glasses on a sitter at rest. */
export function fitGlasses(asset: FigureAsset, glasses: Glasses): Fit {
  const head = headOf(asset)
  const sizes = FRAME_SIZES[glasses.frame]
  const lens = clearLens(head, glasses, sizes)
  const pivot: Vec3 = [0, lens.frame.origin[1], lens.frame.origin[2]]
  return { lens, pivot, bridge: bridgeOver(head, lens, sizes), pad: padOn(head, lens), ...templeOn(head, lens, sizes) }
}

function clearLens(head: Head, glasses: Glasses, sizes: FrameSizes): SpectacleLens {
  for (let vertex = VERTEX_DISTANCE; ; vertex += 0.5 * MM) {
    const lens = lensAt(head, glasses, vertex)
    if (vertex > MOST_VERTEX_DISTANCE || isClear(head, lens, sizes)) return lens
  }
}

/** The sitter's left lens with its back so far from the cornea, along the line of sight. */
function lensAt({ scale, pupil }: Head, glasses: Glasses, vertexDistance: number): SpectacleLens {
  const [tilt, form] = [radians(glasses.tiltDeg), radians(FACE_FORM_DEG)]
  const level: Vec3 = [Math.cos(form), 0, -Math.sin(form)]
  const out: Vec3 = [Math.sin(form), 0, Math.cos(form)]
  const tilted = (v: Vec3): Vec3 => [
    v[0],
    v[1] * Math.cos(tilt) - v[2] * Math.sin(tilt),
    v[1] * Math.sin(tilt) + v[2] * Math.cos(tilt),
  ]
  const [x, z] = [tilted(level), tilted(out)]
  const halfWidthM = (LENS_WIDTH / 2) * scale
  const halfHeightM = (LENS_HEIGHT / 2) * scale
  const curvature = frontCurvature(glasses)
  const at = (depth: number): Frame => ({
    origin: [halfWidthM + (BETWEEN / 2) * scale, pupil[1] - PUPIL_OVER_MIDDLE * scale, depth],
    x,
    y: cross(z, x),
    z,
  })
  const shape = { curvature, halfWidthM, halfHeightM }
  const wanted = pupil[2] + vertexDistance + LENS_THICKNESS
  // Where the line of sight pierces the front now, so that it can be moved to where it should.
  const pierced = depthAt({ frame: at(0), ...shape }, pupil[0], pupil[1])
  return { frame: at(wanted - pierced), ...shape }
}

/** z of the front surface on the line x, y of the head, by a few steps towards it. */
function depthAt(lens: SpectacleLens, x: number, y: number): number {
  const { frame } = lens
  let [u, v] = [x - frame.origin[0], y - frame.origin[1]]
  for (let step = 0; step < 6; step++) {
    const [px, py] = pointToWorld(frame, [u, v, -sagOf(lens, u, v)])
    u += x - px
    v += y - py
  }
  return pointToWorld(frame, [u, v, -sagOf(lens, u, v)])[2]
}

const ROUND = 24

/** Whether the back of the rim, inner and outer edge, stands clear of the skin all round. */
function isClear(head: Head, lens: SpectacleLens, sizes: FrameSizes): boolean {
  const back = sizes.lip - sizes.rimDepth
  for (let i = 0; i < ROUND; i++)
    for (const side of [0, 1]) {
      const angle = (2 * Math.PI * i) / ROUND
      const at = rimPoint(lens, angle, side * rimWidthAt(sizes, angle), back)
      if (at[2] < head.front(at[0], at[1]) + CLEAR) return false
    }
  return true
}

/** Of the left rim, at an angle round the lens. */
export const rimWidthAt = ({ rimWidth, heavier }: FrameSizes, angle: number): number =>
  rimWidth * (1 + heavier * (Math.cos(angle) + Math.sin(angle)))

/** A point of the rim: angle round the lens, metres outwards from the outline and forward of the lens's front. */
export function rimPoint(lens: SpectacleLens, angle: number, beyond: number, forward: number): Vec3 {
  const [x, y] = outlineAt(lens, angle)
  const [nx, ny] = outwardAt(lens, angle)
  return pointToWorld(lens.frame, [x + beyond * nx, y + beyond * ny, forward - sagOf(lens, x, y)])
}

/** Unit outward direction of the outline in the lens's plane. */
export function outwardAt(lens: SpectacleLens, angle: number): readonly [number, number] {
  const step = 0.01
  const [a, b] = [outlineAt(lens, angle - step), outlineAt(lens, angle + step)]
  const [tx, ty] = [b[0] - a[0], b[1] - a[1]]
  const size = Math.hypot(tx, ty)
  return [ty / size, -tx / size]
}

/** Where the bridge leaves the left rim: the upper inner corner. */
export const BRIDGE_ANGLE = radians(152)
/** How far the bridge's arch rises and comes forward between the rims. */
const ARCH_RISE = 1.5 * MM
const ARCH_FORWARD = 1.5 * MM

/** Over the root of the nose, as far forward as that asks for. */
function bridgeOver(head: Head, lens: SpectacleLens, sizes: FrameSizes): Vec3 {
  const [, rim, z] = rimPoint(lens, BRIDGE_ANGLE, sizes.rimWidth / 2, sizes.lip - sizes.rimDepth / 2)
  const y = rim + ARCH_RISE
  const nose = Math.max(...[-0.5, 0, 0.5].map((share) => head.front(0, y + share * sizes.bridgeHeight)))
  return [0, y, Math.max(z + ARCH_FORWARD, nose + CLEAR + sizes.rimDepth / 2)]
}

/** Below the middle of the lens, and behind its front: where a pad stands. */
const PAD_BELOW = 3 * MM
const PAD_BEHIND = 6.5 * MM
/** Pads stand at least so far apart. */
const PAD_HALF_GAP = 5 * MM

/** The flank of the nose at the depth of the pads. */
function padOn(head: Head, { frame }: SpectacleLens): Fit['pad'] {
  const y = frame.origin[1] - PAD_BELOW
  const depth = frame.origin[2] - PAD_BEHIND
  let x = PAD_HALF_GAP
  while (x < 0.016 && head.front(x, y) > depth) x += 0.25 * MM
  const at: Vec3 = [x, y, head.front(x, y)]
  const step = 1.5 * MM
  const slopeX = (head.front(x + step, y) - head.front(x - step, y)) / (2 * step)
  const slopeY = (head.front(x, y + step) - head.front(x, y - step)) / (2 * step)
  const size = Math.hypot(slopeX, slopeY, 1)
  return { at, out: [-slopeX / size, -slopeY / size, 1 / size] }
}

/** Where the temple leaves the left rim: the upper outer corner. */
export const HINGE_ANGLE = radians(36)
/** The end piece reaches so far beyond the rim. */
const END_PIECE = 5 * MM
/** The ear grows out of the head behind its landmark; there its top juts out, and the temple rests on it. */
const EAR_BEHIND = 18 * MM
const EAR_JUTS = 1.5 * MM
const TEMPLE_CLEAR = 0.8 * MM
const TO_EAR = 14

function templeOn(head: Head, lens: SpectacleLens, sizes: FrameSizes): Pick<Fit, 'temple' | 'toEar'> {
  const corner = rimPoint(lens, HINGE_ANGLE, sizes.rimWidth / 2, sizes.lip - sizes.rimDepth / 2)
  const half = sizes.templeThickness / 2
  const hinge: Vec3 = [corner[0] + END_PIECE * head.scale, corner[1], corner[2] - 4 * MM]
  const top = earTop(head)
  const ear: Vec3 = [top[0] + half, top[1] + sizes.templeHeight / 2, top[2]]
  const line = Array.from({ length: TO_EAR + 1 }, (_, i) => lerp(hinge, ear, i / TO_EAR))
  const bow = line.reduce((most, [x, y, z], i) => {
    const t = i / TO_EAR
    const lacks = head.side(y, z) + half + TEMPLE_CLEAR - x
    return i > 0 && i < TO_EAR ? Math.max(most, lacks / (4 * t * (1 - t))) : most
  }, 0)
  const bowed = line.map(([x, y, z], i): Vec3 => [x + (4 * bow * i * (TO_EAR - i)) / TO_EAR ** 2, y, z])
  return { temple: [...bowed, ...tipBehind(head, ear, half)], toEar: bowed.length }
}

/** Beside the skull, on top of the ear. */
function earTop(head: Head): Vec3 {
  const z = head.ear[2] - EAR_BEHIND * head.scale
  const above = head.ear[1] + 47 * MM * head.scale
  const skull = head.side(above, z)
  let y = above
  while (y > head.ear[1] && head.side(y, z) < skull + EAR_JUTS) y -= 0.25 * MM
  return [skull + TEMPLE_CLEAR, y, z]
}

/** The end of the temple, bent down between ear and skull. */
function tipBehind(head: Head, ear: Vec3, half: number): readonly Vec3[] {
  const lengths = [4, 9, 15, 22, 29, 34]
  return lengths.map((along) => {
    const drop = (along / 34) ** 1.5 * 24
    const [y, z] = [ear[1] - drop * MM * head.scale, ear[2] - along * 0.72 * MM * head.scale]
    const skull = head.side(ear[1] + 8 * MM, z)
    return [Math.min(ear[0], skull + half), y, z]
  })
}
