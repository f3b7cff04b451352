import type { MeterScene, Probe } from '../meter'
import {
  fNumberFromLuminousExposure,
  INCIDENT_C,
  luminousExposureFromFNumber,
  type Receptor,
  ratioFromStops,
  type Stops,
  stopsBetween,
} from '../photometry'
import { type Cheek, farCheek, keyOf, nearCheek, placeLandmarks, type RigFigure, type RigSource } from '../rig'
import type { PlaceLandmarks, Sitting } from '../sitting'
import { addScaled, dot, normalize, subtract, type Vec3 } from '../space'
import { type LightTable, sumOf } from './light-table'
import { side, type Units } from './words'

/** A meter is never in the skin: its receptor is held this far off it, metres. */
export const HELD_OFF_M = 0.005
/**
 * Its dome sits on a casing of some 65 × 130 mm, here as far round as a disc of that area: skin behind it is hidden from it.
 * Common practice, no source.
 */
export const CASING_M = 0.05

/** What every reading starts from. */
export interface Stage {
  readonly sitting: Sitting
  readonly scene: MeterScene
  readonly table: LightTable
  readonly units: Units
  /** The first sitter. */
  readonly figure: RigFigure
  readonly marks: PlaceLandmarks
  /** Gives the near side its name; null: no source fires. */
  readonly key: RigSource | null
  readonly exposure: Exposure
}

/** How the document's powers are carried to what is shown. */
export interface Exposure {
  /** Stops by which all sources together are raised: 0 unless the powers give way. */
  readonly factorStops: Stops
  /** What the camera is set to. */
  readonly fNumber: number
  readonly perSourceStops: Readonly<Record<string, Stops>>
}

export function stageOf(sitting: Sitting, scene: MeterScene, table: LightTable, units: Units): Stage {
  const figure = scene.rig.figures[0]
  if (!figure) throw new Error('readings.stageOf: the rig has no sitter; a sitting has at least one')
  const stage = {
    sitting,
    scene,
    table,
    units,
    figure,
    marks: placeLandmarks(figure),
    key: keyOf(scene.rig),
    exposure: { factorStops: 0, fNumber: sitting.camera.fNumber, perSourceStops: {} },
  }
  return { ...stage, exposure: exposureOf(stage) }
}

/**
 * The main reading is the near cheek, disc to the light. Powers give way: factor = C·N²/(S·H), so that it reads the
 * camera's f-number. The f-number gives way: N² = H·S/C. Nothing does: both stay.
 */
function exposureOf(stage: Stage): Exposure {
  const { sitting, key } = stage
  const { fNumber, iso } = sitting.camera
  const h = key ? sumOf(stage.table.at('nearCheek.disc.light', towardsLight(stage, key), 'disc')) : 0
  const factorStops =
    h > 0 && sitting.reExpose === 'powers' ? stopsBetween(h, luminousExposureFromFNumber(fNumber, iso)) : 0
  return {
    factorStops,
    fNumber: h > 0 && sitting.reExpose === 'f-number' ? fNumberFromLuminousExposure(h, iso) : fNumber,
    perSourceStops: Object.fromEntries(
      sitting.sources.map(({ id, head }) => [id, head.powerStops + factorStops] as const),
    ),
  }
}

export const powerFactor = ({ exposure }: Stage): number => ratioFromStops(exposure.factorStops)
/** Incident constant, lx·s: 250, but for a dome that the user's meter has one of its own. */
export const constantOf = ({ sitting }: Pick<Stage, 'sitting'>, receptor: Receptor): number =>
  receptor === 'disc' ? INCIDENT_C : (sitting.meter?.domeC ?? INCIDENT_C)
/** f-number that a meter shows for a luminous exposure at the document's powers, after re-exposure. */
export const fNumberOf = (stage: Stage, h: number, receptor: Receptor = 'disc'): number =>
  fNumberFromLuminousExposure(h * powerFactor(stage), stage.sitting.camera.iso, constantOf(stage, receptor))

export const nearCheekOf = ({ figure }: Stage, source: RigSource): Cheek => nearCheek(figure, source.frame.origin)
export const farCheekOf = ({ figure }: Stage, source: RigSource): Cheek => farCheek(figure, source.frame.origin)

/** Where a source is looked for: its lit face, the mark of one that is far off; under a sky the sitter is what it concerns. */
export const whereabouts = ({ marks }: Stage, { remote, frame }: RigSource): Vec3 =>
  remote ? (remote.kind === 'around' ? marks.eyePoint : remote.markM) : frame.origin

/** A place just off the skin at a landmark, with the skin's normal. */
export function skinProbe({ figure }: Stage, landmark: keyof RigFigure['posed']['landmarks']): Probe {
  const { position, normal } = figure.posed.landmarks[landmark]
  return { point: addScaled(position, normal, HELD_OFF_M), normal }
}

/** The near cheek of a source, receptor to that source. */
export function towardsLight(stage: Stage, source: RigSource, cheek: Cheek = nearCheekOf(stage, source)): Probe {
  const { point } = skinProbe(stage, cheek)
  return { point, normal: normalize(subtract(source.frame.origin, point)), casingM: CASING_M }
}
export function towardsLens(stage: Stage, source: RigSource): Probe {
  const { point } = skinProbe(stage, nearCheekOf(stage, source))
  return { point, normal: normalize(subtract(stage.sitting.camera.positionM, point)), casingM: CASING_M }
}

/** Which side a place of the face is on, as the camera sees it. */
export function cheekName(stage: Stage, cheek: Cheek): string {
  const at = stage.figure.posed.landmarks[cheek].position
  return `cheek at ${side(towardsRight(stage, subtract(at, stage.marks.eyePoint)))}`
}

/** How far a direction goes to camera right, in its own length. */
function towardsRight({ scene }: Stage, direction: Vec3): number {
  // The view's z looks into the scene and y is up, so its x is camera left.
  return -dot(direction, scene.rig.view.frame.x)
}
