import { type Radians, segmentHitsCap, segmentHitsCylinder, segmentHitsDisc, segmentHitsRectangle } from '../photometry'
import { add, dot, type Frame, frameTowards, length, lerp, rotateAbout, subtract, type Vec3 } from '../space'
import { closePlace } from './edge-place'
import type { Rig, RigFigure, RigSource, View } from './types'

/**
 * Ways to look at the first sitter beside the camera's picture. Crops are the camera's own picture, closer; edge is that of a shadow's
 * edge (edge-place), so small that the page shows a pixel of the frame on each of its own; profile is the view square to the nose.
 */
export const LOOKS = ['camera', 'eye', 'cheek', 'edge', 'profile'] as const
export type Look = (typeof LOOKS)[number]

/** Height of the camera's frame in pixels, by which crops are measured. */
export const FRAME_PX = 1920
/** Height of a crop in pixels of that frame. */
export const CROP_PX = { eye: 384, cheek: 640, edge: 480 } as const
type Crop = keyof typeof CROP_PX

export const isCrop = (look: Look): look is Crop => look in CROP_PX

type Seen = Pick<Rig, 'figures' | 'surfaces' | 'sources' | 'view'>

/** How large the cropped place comes out, and which of the two eyes or cheeks it is. */
export interface CropScale {
  /** Millimetres at the place, square to the line of sight, to a pixel of the camera's frame. */
  readonly mmPerFramePx: number
  /** Millimetres across the crop. */
  readonly widthMm: number
  /** The sitter's own side, the nearer one to the lens. */
  readonly side: 'Left' | 'Right'
  /** In the middle of the crop. World. */
  readonly centre: Vec3
}

/**
 * The rig's camera, or what looks in its stead; exposure is the camera's own. A rig without a sitter has only the camera.
 * Crop: same place, turned to the eye or cheek that is nearer to the lens, focal length longer so that CROP_PX of the
 * frame fill the picture. Profile: camera and line of sight turned about the upright through the middle of the head, from
 * the same distance and height, until the nose points square to it; from the side with fewer things in the way, else from
 * the nearer one.
 */
export function lookFrom(rig: Seen, look: Look): View {
  const [sitter] = rig.figures
  if (look === 'camera' || !sitter || (look === 'edge' && !closePlace(rig))) return rig.view
  if (!isCrop(look)) {
    // No camera stands there, so no shutter covers a part of it.
    const { darkSide: _, ...view } = rig.view
    return { ...view, frame: turnedAbout(sitter, rig.view.frame, profileTurn(rig, sitter)) }
  }
  const { mmPerFramePx, centre } = cropScale(rig, look)
  const frame = frameTowards(rig.view.frame.origin, centre)
  const { sensorHeightMm } = rig.view
  const away = 1000 * length(subtract(centre, frame.origin))
  return { ...rig.view, frame, focalLengthMm: (away * sensorHeightMm) / (mmPerFramePx * CROP_PX[look]) }
}

/** Scale of a crop. A camera that has its back to the place is measured as if it were turned to it. Without an edge, as of the cheek. */
export function cropScale(rig: Pick<Rig, 'figures' | 'view' | 'sources' | 'surfaces'>, look: Crop): CropScale {
  const { figures, view } = rig
  const { landmarks } = figures[0].posed
  const { origin, z } = view.frame
  const name = look === 'eye' ? 'pupil' : 'cheek'
  const away = (side: CropScale['side']) => length(subtract(landmarks[`${name}${side}`].position, origin))
  const side = away('Left') <= away('Right') ? 'Left' : 'Right'
  const edge = look === 'edge' ? closePlace(rig) : null
  const centre = edge?.at ?? landmarks[`${name}${side}`].position
  const depthM = dot(subtract(centre, origin), z)
  const mmPerSensorMm = (1000 * (depthM > 0 ? depthM : length(subtract(centre, origin)))) / view.focalLengthMm
  return {
    side,
    centre,
    mmPerFramePx: (mmPerSensorMm * view.sensorHeightMm) / FRAME_PX,
    widthMm: (mmPerSensorMm * view.sensorWidthMm * CROP_PX[look]) / FRAME_PX,
  }
}

const UP: Vec3 = [0, 1, 0]

/** Halfway between the tip of the nose and the back of the head. World. */
export const headMiddle = ({ posed: { landmarks } }: RigFigure): Vec3 =>
  lerp(landmarks.noseTip.position, landmarks.backOfHead.position, 0.5)

function turnedAbout(sitter: RigFigure, frame: Frame, turn: Radians): Frame {
  const middle = headMiddle(sitter)
  return {
    origin: add(middle, rotateAbout(subtract(frame.origin, middle), UP, turn)),
    x: rotateAbout(frame.x, UP, turn),
    y: rotateAbout(frame.y, UP, turn),
    z: rotateAbout(frame.z, UP, turn),
  }
}

/** By how much the camera goes round, radians, positive to camera right. */
function profileTurn(rig: Seen, sitter: RigFigure): Radians {
  const { noseDirection } = sitter.posed
  const azimuth = ([x, , z]: Vec3) => Math.atan2(x, z)
  const from = azimuth(subtract(rig.view.frame.origin, headMiddle(sitter)))
  const [left, right] = [-1, 1].map((side) => shortWay(azimuth(noseDirection) + (side * Math.PI) / 2 - from))
  const [near, other] = Math.abs(left) < Math.abs(right) - 1e-9 ? [left, right] : [right, left]
  const inTheWay = (turn: Radians) => hiddenPlaces(rig, sitter, turnedAbout(sitter, rig.view.frame, turn).origin)
  return inTheWay(other) < inTheWay(near) ? other : near
}

const shortWay = (turn: Radians): Radians => Math.atan2(Math.sin(turn), Math.cos(turn))

const PROFILE = ['crown', 'glabella', 'noseTip', 'chin', 'neckFront', 'backOfHead'] as const

/** How many places of the head's outline a board or a lamp hides. Walls are looked through from behind, as all views do. */
function hiddenPlaces({ surfaces, sources }: Seen, { posed }: RigFigure, from: Vec3): number {
  const boards = surfaces.filter(({ back }) => back !== null)
  const gear = sources.flatMap((source) => source.gear)
  return PROFILE.map((name) => posed.landmarks[name].position).filter(
    (place) =>
      boards.some(({ rect }) => segmentHitsRectangle(from, place, rect)) ||
      gear.some((solid) => hitsSolid(from, place, solid)),
  ).length
}

function hitsSolid(a: Vec3, b: Vec3, solid: RigSource['gear'][number]): boolean {
  switch (solid.kind) {
    case 'cylinder':
      return segmentHitsCylinder(a, b, solid)
    case 'rectangle':
      return segmentHitsRectangle(a, b, solid.rect)
    case 'disc':
      return segmentHitsDisc(a, b, solid.centre, solid.normal, solid.radiusM)
    case 'cap':
      return segmentHitsCap(a, b, solid)
  }
}

const looks = new WeakMap<Rig, Map<Look, Rig>>()

/** The rig as that look sees it: the same record each time, and the rig itself where the camera looks. */
export function rigSeen(rig: Rig, look: Look): Rig {
  const known = looks.get(rig) ?? new Map<Look, Rig>([['camera', rig]])
  looks.set(rig, known)
  const seen = known.get(look) ?? { ...rig, view: lookFrom(rig, look) }
  known.set(look, seen)
  return seen
}
