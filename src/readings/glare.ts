import { type LensPair, meetLens, type SpectacleLens } from '../figure'
import type { RigFigure, RigSource } from '../rig'
import { cross, degrees, distance, dot, normalize, pointToLocal, radians, subtract, type Vec3 } from '../space'
import { BANDS } from './bands'
import {
  clearAt,
  type Face,
  faceOf,
  glareShare,
  glares,
  glareWays,
  isMirroredAt,
  missedBy,
  tipped,
  turnedFrame,
} from './lens-glare'
import { absent, GEOMETRY, reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import { figure as number, side } from './words'

const LENSES = ['left', 'right'] as const
type LensSide = (typeof LENSES)[number]

/** What the lens of the camera sees of a source in one lens of a pair of glasses. */
export type Glare =
  | { readonly kind: 'clear' /** Degrees. */; readonly by: number }
  | { readonly kind: 'hidden' }
  | { readonly kind: 'turned away' }
  | { readonly kind: 'glare'; readonly at: Vec3 /** Of the lens. */; readonly share: number; readonly overEye: boolean }

/** Glare of one source in the glasses of every sitter that wears some. */
export function glareReadings(stage: Stage, source: RigSource): readonly Reading[] {
  return stage.scene.rig.figures.flatMap((sitter, i) => {
    const { lenses } = sitter.posed
    if (!lenses) return []
    const found = LENSES.map((which) => ({ which, glare: glareIn(stage, source, sitter, lenses[which]) }))
    const whose: Whose = { stage, source, sitter, lenses, suffix: i === 0 ? '' : `.${sitter.id}`, count: i + 1 }
    const each = found.map(({ which, glare }) => lensReading(whose, which, glare))
    return found.some(({ glare }) => glare.kind === 'glare') ? [...each, wayOut(whose)] : each
  })
}

const viewerOf = ({ scene }: Stage): Vec3 => scene.rig.view.frame.origin

/** One source in one lens, by the mirror's law and what stands in the way. */
export function glareIn(stage: Stage, source: RigSource, sitter: RigFigure, lens: SpectacleLens): Glare {
  const viewer = viewerOf(stage)
  const face = faceOf(source)
  if (!glares(lens, viewer, face)) {
    const missed = missedBy(lens, viewer, face)
    return missed === null ? { kind: 'turned away' } : { kind: 'clear', by: degrees(missed) }
  }
  const seen = glareWays(lens, viewer, face).filter(({ at, lamp }) => isOpen(stage, source, at, lamp))
  if (seen.length === 0) return { kind: 'hidden' }
  const overEye = (['Left', 'Right'] as const).some((eye) => {
    const pupil = sitter.posed.landmarks[`pupil${eye}`].position
    const met = meetLens(lens, viewer, pupil)
    if (!met) return false
    const through = [0, 1, 2].map((k) => viewer[k] + met.share * (pupil[k] - viewer[k])) as unknown as Vec3
    const [x, y] = pointToLocal(lens.frame, through)
    return isMirroredAt(lens, viewer, face, x, y)
  })
  return { kind: 'glare', at: seen[0].at, share: glareShare(lens, viewer, face), overEye }
}

/** From the camera, which sees into the room from behind a wall, to the place of the lens, and from there to the lamp. */
function isOpen({ scene: { caster, bodies, rig } }: Stage, source: RigSource, at: Vec3, lamp: Vec3): boolean {
  const viewer = rig.view.frame.origin
  const before = caster.nearest(viewer, normalize(subtract(at, viewer)))
  if (before && before.distance < distance(viewer, at) - 1e-4) return false
  return caster.visible(at, lamp, bodies.gearOf.get(source.id))
}

interface Whose {
  readonly stage: Stage
  readonly source: RigSource
  readonly sitter: RigFigure
  readonly lenses: LensPair
  /** Of ids. */
  readonly suffix: string
  /** 1 for the first sitter. */
  readonly count: number
}

const FORMULA = 'each place of the lens’s front mirrors one direction: in = out about its normal'
const idOf = ({ source, suffix }: Whose, what: string) => `source.${source.letter}.glare${suffix}.${what}`
const ofSitter = ({ count }: Whose) => (count === 1 ? '' : ` of sitter ${count}`)

function lensName(whose: Whose, which: LensSide): string {
  const { left, right } = whose.lenses
  const { x } = whose.stage.scene.rig.view.frame
  const toRight = -dot(x, subtract(left.frame.origin, right.frame.origin))
  return `lens at ${side(which === 'left' ? toRight : -toRight)}${ofSitter(whose)}`
}

function filledFor({ lenses: { left } }: Whose): string {
  const { curvature } = left
  return curvature > 0 ? `front of ${number(1000 / curvature)} mm radius` : 'flat front'
}

function lensReading(whose: Whose, which: LensSide, glare: Glare): Reading {
  const { source, lenses } = whose
  const { letter, id: sourceId } = source
  const name = lensName(whose, which)
  const id = idOf(whose, which)
  const place = { name, at: glare.kind === 'glare' ? glare.at : lenses[which].frame.origin }
  const why = { formula: FORMULA, filled: filledFor(whose), source: GEOMETRY }
  if (glare.kind === 'turned away' || glare.kind === 'hidden') {
    const sentence =
      glare.kind === 'hidden'
        ? `something stands between ${letter}'s reflection in the ${name} and the camera.`
        : `the ${name} shows the camera its back.`
    return absent({ id, place, formula: FORMULA, source: GEOMETRY, sourceId, sentence })
  }
  if (glare.kind === 'clear')
    return reading({
      ...{ id, place, why, sourceId, value: glare.by, unit: '°', text: number(glare.by), band: BANDS.glare },
      sentence: `clear of glare: by so much ${letter}'s reflection passes the ${name}.`,
    })
  const share = glare.share < 0.01 ? 'under 1 %' : `${number(100 * glare.share)} %`
  return reading({
    ...{ id, place, why, sourceId, value: 'glare', unit: '', text: 'Glare' },
    sentence: `from ${letter} lies on ${share} of the ${name}${glare.overEye ? ', over the eye' : ', beside the eye'}.`,
  })
}

/** Higher than this a source lights crowns, farther round it lights backs. */
const HIGHEST = radians(80)
const FARTHEST = radians(90)
/** Temples lifted farther off the ears show. Common practice, no source. */
const MOST_TIPPED = radians(15)

/** How far the source must be raised or taken round, or the glasses tipped, until no lens glares. */
function wayOut(whose: Whose): Reading {
  const { stage, source, sitter, lenses } = whose
  const moves = movesOut(viewerOf(stage), faceOf(source), sitter.posed.eyeMidpoint, lenses)
  const { letter } = source
  const told = [
    moves.raise !== null && `raise ${letter} by ${number(degrees(moves.raise))}°`,
    moves.round !== null && `take it ${number(degrees(moves.round))}° farther round`,
    moves.tip !== null && `tip the glasses ${number(degrees(moves.tip))}° more`,
  ].filter((words) => words !== false)
  const id = idOf(whose, 'wayOut')
  const place = { name: `glasses${ofSitter(whose)}`, at: lenses.pivot }
  const formula =
    'the first angle about the eyes (source) or the bridge (glasses) at which no place of a lens mirrors the face'
  if (told.length === 0)
    return absent({
      ...{ id, place, formula, source: GEOMETRY, sourceId: source.id },
      sentence: `raising, turning or tipping alone does not clear the glasses${ofSitter(whose)} of ${letter}: turn the head, or use a smaller source.`,
    })
  const value = moves.raise === null ? null : degrees(moves.raise)
  return reading({
    ...{
      id,
      place,
      sourceId: source.id,
      value,
      unit: value === null ? '' : '°',
      band: value === null ? null : BANDS.glare,
      text: value === null ? '–' : number(value),
    },
    sentence: `clears the glasses${ofSitter(whose)} of glare: ${told.join(', or ')}.`,
    why: { formula, filled: filledFor(whose), source: GEOMETRY },
  })
}

export interface MovesOut {
  /** Radians; null: not within reach. */
  readonly raise: number | null
  readonly round: number | null
  readonly tip: number | null
}

/** Each move alone. The source keeps its distance from the eyes and its aim at them; round: away from the camera's side. */
export function movesOut(viewer: Vec3, face: Face, eyes: Vec3, lenses: LensPair): MovesOut {
  const both = [lenses.left, lenses.right]
  const isClear = (moved: Face) => both.every((lens) => !glares(lens, viewer, moved))
  const away = subtract(face.frame.origin, eyes)
  const level = Math.hypot(away[0], away[2])
  const elevation = Math.atan2(away[1], level)
  const upAxis: Vec3 = level > 0 ? [-away[2] / level, 0, away[0] / level] : [1, 0, 0]
  const camera = subtract(viewer, eyes)
  // A right-handed turn about +y takes +z to +x; away from the camera's own direction.
  const sense = cross(camera, away)[1] >= 0 ? 1 : -1
  const moved = (axis: Vec3, angle: number): Face => ({ ...face, frame: turnedFrame(face.frame, eyes, axis, angle) })
  return {
    raise: clearAt(HIGHEST - elevation, (angle) => isClear(moved(upAxis, angle))),
    round: clearAt(FARTHEST, (angle) => isClear(moved([0, sense, 0], angle))),
    tip: clearAt(MOST_TIPPED, (angle) => tipped(lenses, angle).every((lens) => !glares(lens, viewer, face))),
  }
}
