import { directionThrough, projectToFrame } from '../camera'
import type { Emission, SurfacePoint } from '../photometry'
import type { RigSource, View } from '../rig'
import { degrees, distance, dot, normalize, pointToLocal, pointToWorld, subtract, type Vec3 } from '../space'
import { BANDS } from './bands'
import { pastHood } from './hood'
import { absent, GEOMETRY, PRACTICE, reading } from './reading'
import { type Stage, towardsLight } from './stage'
import type { Caution, Reading } from './types'
import { figure } from './words'

/** Common practice, no source: a lit face that the lens sees nearer to the frame than this costs contrast. */
const NEAR_DEG = 30
/** And so does one that gives the lens this share of what it gives the face. */
const MUCH = 0.25
/** Places of a lit face along each of its sides, and of the frame's border. */
const CELLS = [0.05, 0.275, 0.5, 0.725, 0.95]
const BORDER = Array.from({ length: 17 }, (_, i) => i / 8 - 1).flatMap((t) => [
  [t, 1] as const,
  [t, -1] as const,
  [1, t] as const,
  [-1, t] as const,
])
/** Of what a face shows straight ahead: less is no lit face, such as what a grid lets by. */
const LEAST_SHARE = 0.02

interface Flare {
  readonly at: Vec3
  /** Outside the frame, as the lens sees it; 0: within. */
  readonly outsideDeg: number
  /** Light on the front of the lens, past its hood, over that on the near cheek, straight from the source. */
  readonly share: number
}

type Unlit = 'turned away' | 'hooded'

/** Asked by the reading and by the caution. */
const FLARES = new WeakMap<Stage, Map<RigSource, Flare | Unlit>>()

function flareOf(stage: Stage, source: RigSource): Flare | Unlit {
  const known = FLARES.get(stage) ?? new Map<RigSource, Flare | Unlit>()
  FLARES.set(stage, known)
  const flare = known.get(source) ?? foundFlare(stage, source)
  known.set(source, flare)
  return flare
}

/** The place of a source's lit faces that the lens sees nearest to the frame, or why it sees none of them. */
function foundFlare(stage: Stage, source: RigSource): Flare | Unlit {
  const { rig, bodies, caster } = stage.scene
  const lens = rig.view.frame.origin
  const own = bodies.gearOf.get(source.id)
  const seen = litTowards(source, lens).filter((at) => caster.visible(lens, at, own))
  if (seen.length === 0) return 'turned away'
  const passes = seen.map((at) => pastHood(rig.view, at))
  const [nearest] = seen
    .filter((_, i) => passes[i] > 0)
    .map((at) => ({ at, outsideDeg: outsideFrame(rig.view, at) }))
    .sort((a, b) => a.outsideDeg - b.outsideDeg)
  if (!nearest) return 'hooded'
  const onLens = stage.table.direct(source, { point: lens, normal: rig.view.frame.z }, 'disc')
  const onFace = stage.table.direct(source, towardsLight(stage, source), 'disc')
  const past = passes.reduce((sum, pass) => sum + pass, 0) / passes.length
  return { ...nearest, share: onFace > 0 ? (past * onLens) / onFace : past }
}

function litTowards({ emitters }: RigSource, lens: Vec3): readonly Vec3[] {
  return emitters.flatMap(({ frame, emission }) => {
    const local = pointToLocal(frame, lens)
    const { places, least } = faceOf(emission)
    const shows = places.filter(
      (at) => distance(local, at.point) > 0 && emission.luminance(at, normalize(subtract(local, at.point))) > least,
    )
    return shows.map(({ point }) => pointToWorld(frame, point))
  })
}

interface LitFace {
  readonly places: readonly SurfacePoint[]
  /** Luminance from which a place shows. */
  readonly least: number
}

/** An emission stays while its source moves, and so does its face. */
const FACES = new WeakMap<Emission, LitFace>()

function faceOf(emission: Emission): LitFace {
  const known = FACES.get(emission)
  if (known) return known
  const places = CELLS.flatMap((u) => CELLS.map((v) => emission.at(u, v)))
  for (const place of places) emission.keep?.(place)
  const face = { places, least: LEAST_SHARE * Math.max(...places.map((at) => emission.luminance(at, at.normal))) }
  FACES.set(emission, face)
  return face
}

function outsideFrame(view: View, at: Vec3): number {
  const place = projectToFrame(at, view.frame, view)
  if (place && Math.abs(place.x) <= 1 && Math.abs(place.y) <= 1) return 0
  const way = normalize(subtract(at, view.frame.origin))
  const cosines = BORDER.map(([x, y]) => dot(way, directionThrough(x, y, view.frame, view)))
  return degrees(Math.acos(Math.min(1, Math.max(...cosines))))
}

const FORMULA = 'least angle at the lens between the frame and what it sees of the lit face'

/** How far outside the frame the lens sees a lit face: its light on the front of the lens veils the picture. */
export function flareReading(stage: Stage, source: RigSource): Reading {
  const { letter, id: sourceId } = source
  const id = `source.${letter}.flare`
  const found = flareOf(stage, source)
  if (typeof found === 'string')
    return absent({
      ...{ id, sourceId, formula: FORMULA, source: GEOMETRY },
      place: { name: 'lens', at: stage.scene.rig.view.frame.origin },
      sentence:
        found === 'hooded'
          ? `the hood keeps ${letter}'s lit face off the lens: no flare from it.`
          : `the lens sees nothing of ${letter}'s lit face: no flare from it.`,
    })
  const { at, outsideDeg, share } = found
  const isHooded = stage.scene.rig.view.hood !== undefined
  const advice =
    share < MUCH ? `a ${isHooded ? 'deeper ' : ''}hood keeps it off` : 'flag it until the lens is in shadow'
  return reading({
    ...{ id, sourceId, value: outsideDeg, unit: '°', text: figure(outsideDeg), band: BANDS.angle },
    place: { name: `lit face of ${letter}`, at },
    sentence:
      outsideDeg === 0
        ? `outside the frame: ${letter}'s lit face stands in the picture.`
        : `outside the frame the lens sees ${letter}'s lit face, which gives its front ${figure(100 * share)} % of the light on the near cheek: ${advice}.`,
    why: { formula: FORMULA, filled: `${figure(outsideDeg, 1)}°`, source: `${GEOMETRY}; advice: ${PRACTICE}` },
  })
}

/** Said where a lit face outside the picture, near its frame, shines into the lens as on the sitter. */
export function flareCaution(stage: Stage, source: RigSource): Caution | null {
  const found = source.on && source.remote?.kind !== 'around' ? flareOf(stage, source) : 'turned away'
  if (typeof found === 'string' || found.outsideDeg === 0 || found.outsideDeg >= NEAR_DEG || found.share < MUCH)
    return null
  return {
    id: `caution.${source.letter}.flare`,
    at: source.remote?.markM ?? source.frame.origin,
    sentence: `${source.letter} shines into the lens from ${figure(found.outsideDeg)}° outside the frame: flag it, grid it or ${stage.scene.rig.view.hood ? 'deepen the hood' : 'hood the lens'}, or blacks turn grey.`,
  }
}
