import type { Mesh, Vec3 } from '../space'
import type { Gaze, PosedGaze } from './gaze'
import type { LensPair } from './glasses/lens'
import type { Lean } from './lean'

/** Head-local frame: metres, origin midway between the eyeball centres, +x the sitter's left, +y up, +z where the sitter faces. */
export const PART_NAMES = ['skin', 'eyeLeft', 'eyeRight', 'hair', 'garment'] as const
/** The first sitter's own parts, which all sitters have, headwear and a frame of glasses. */
export type PartName = (typeof PART_NAMES)[number] | 'headwear' | 'glasses'
/** Parts that come in files of their own. Long hair takes the place of hair; covering and hat are headwear. */
export type WornName = 'longHair' | 'covering' | 'hat'

export interface FigurePart {
  readonly name: PartName
  readonly mesh: Mesh
  /** Per vertex, linear reflectance 0 to 1, three a vertex: paint (lips, brows, iris) relative to the part's base tone. */
  readonly tint: Float32Array
  /** Per vertex, 0 = follows the body, 1 = follows the head. */
  readonly headWeight: Float32Array
  /** Coarser triangles over the same vertices: shadow proxy and receivers of bounce. */
  readonly proxyIndices: Uint32Array
  /** Full vertex → three proxy vertices (indices into the same vertex list) and weights that sum to 1. */
  readonly proxyCorners: Uint32Array
  readonly proxyWeights: Float32Array
  /** Of hair, per vertex: unit direction of the strands along the surface, from root to tip. */
  readonly combed?: Float32Array | undefined
  /**
   * Of hair, and of skin about the hairline, three a vertex: how far across the strands and how far along them it lies,
   * millimetres; and how far they have thinned out, from −1, where none grows any more, to 1, where they grow densely, and beyond.
   */
  readonly grain?: Float32Array | undefined
  /** Of the top, per vertex: how far it lies from its seams, four a vertex, as sculpt/garment.ts tells them. */
  readonly seams?: Float32Array | undefined
  /** Of skin, per vertex: to be added to its roughness, as skin-gloss.ts tells it. */
  readonly gloss?: Float32Array | undefined
}

export interface FigureAsset {
  readonly parts: readonly FigurePart[]
  /** Named places in the head-local frame; names ending in Left or Right are the sitter's own. */
  readonly landmarks: Readonly<Record<LandmarkName, Landmark>>
  readonly headPivot: Vec3
  /** What the sitter wears before the eyes; its frame is a part. */
  readonly lenses?: LensPair | undefined
}

export interface Landmark {
  readonly position: Vec3
  /** Unit, out of the skin. */
  readonly normal: Vec3
  readonly headWeight: number
}

export const LANDMARK_NAMES = [
  'eyeCentreLeft',
  'eyeCentreRight',
  'pupilLeft',
  'pupilRight',
  'noseTip',
  'subnasale',
  'sellion',
  'glabella',
  'cheekLeft',
  'cheekRight',
  'noseShadowCheekLeft',
  'noseShadowCheekRight',
  'foreheadCentre',
  'chin',
  'menton',
  'neckFront',
  'sternalNotch',
  'earLeft',
  'earRight',
  'crown',
  'mouthLeft',
  'mouthRight',
  'stomion',
  'shoulderLeft',
  'shoulderRight',
  'backOfHead',
] as const
export type LandmarkName = (typeof LANDMARK_NAMES)[number]

/**
 * Degrees. Turns are of the body and of the head in the room, not of the head on the body: positive to camera right (the
 * sitter's own left). Chin: positive up. Tilt: positive towards camera right. positionM and eyeHeightM: of the eyes' midpoint
 * at rest, all angles 0; turning and leaning move them.
 */
export interface Pose {
  readonly positionM: Vec3
  readonly eyeHeightM: number
  readonly bodyTurnDeg: number
  readonly headTurnDeg: number
  readonly headTiltDeg: number
  readonly chinDeg: number
  /** Left out: straight ahead with the head. */
  readonly gaze?: Gaze | undefined
  /** Of the trunk; left out: upright. */
  readonly lean?: Lean | undefined
}

export interface PosedPart {
  readonly name: PartName
  /** World metres. Its lists, as all here that is posed, are worked out when they are first asked for. */
  readonly mesh: Mesh
  /** In the head's frame before the pose, but eyes and lids turned: as the carriage takes it into the room. */
  readonly rest: Mesh
  readonly part: FigurePart
  /** Of coarseVertices, in their order, world. */
  readonly coarse: Pick<Mesh, 'positions' | 'normals'>
  /** Of hair: as of the part, in the world. */
  readonly combed?: Float32Array | undefined
  /** How far along a unit direction each vertex of the mesh lies, m; and one of them, world. Without posing the rest. */
  heightsAlong(direction: Vec3): Float64Array
  pointAt(vertex: number): Vec3
}

export interface PosedFigure {
  readonly parts: readonly PosedPart[]
  readonly landmarks: Readonly<Record<LandmarkName, Landmark>>
  /** Unit, world: where the nose points; and the head's own up. */
  readonly noseDirection: Vec3
  readonly headUp: Vec3
  /** World: midpoint between the eyeball centres. */
  readonly eyeMidpoint: Vec3
  readonly gaze: PosedGaze
  /** World. */
  readonly lenses?: LensPair | undefined
  readonly carriage: Carriage
}

/**
 * How a point p of the head's frame that follows the head by a weight from 0 to 1 comes into the room: at + body turns
 * (pivot + head turns by that share (p − pivot)). Metres; turns as an axis times its angle in radians.
 */
export interface Carriage {
  readonly pivot: Vec3
  readonly at: Vec3
  readonly head: Vec3
  readonly body: Vec3
}
