import { FACE_REGIONS, type FaceRegion, posedRegions } from '../figure'
import type { MeterScene } from '../meter'
import type { Rig, RigSource } from '../rig'
import { add, cross, normalize, radians, rotateAbout, subtract, type Vec3 } from '../space'
import { cellLights, type Shining } from './face-map'
import { litPoints } from './lit-points'
import { type FaceLight, faceLight, type Pattern, type PatternMap, patternMap, verdictOf } from './pattern-judge'
import { azimuthFromNoseDeg } from './placing'
import { absent, PRACTICE, reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import { figure, side } from './words'

export type { Pattern } from './pattern-judge'

/** Centre, points and gear of a source, for what the face sees of it. */
export const shiningOf = ({ bodies }: MeterScene, source: RigSource): Shining => ({
  centre: source.frame.origin,
  points: litPoints(source),
  ignore: bodies.gearOf.get(source.id) ?? new Set(),
})

/** A source that walks round the sitter, or is raised, always at the same distance from the eyes. */
type Way = 'right' | 'left' | 'up' | 'down'
const WAYS: readonly Way[] = ['right', 'left', 'up', 'down']

function moved(source: Shining, eye: Vec3, way: Way, deg: number): Shining {
  const out = subtract(source.centre, eye)
  const axis: Vec3 = way === 'right' || way === 'left' ? [0, 1, 0] : normalize(cross(out, [0, 1, 0]))
  const angle = radians(way === 'left' || way === 'down' ? -deg : deg)
  const turn = (p: Vec3) => add(eye, rotateAbout(subtract(p, eye), axis, angle))
  return { ...source, centre: turn(source.centre), points: source.points.map(turn) }
}

const FARTHEST_DEG = 20
const STEP_DEG = 4

interface Next {
  readonly pattern: Pattern
  readonly degrees: number
  readonly way: Way
}

/** The nearest other name, walking round or up or down, and how far. null: none within 20°. */
function nextPattern({ scene, figure: sitter }: Stage, map: PatternMap, key: Shining, now: string): Next | null {
  const at = (way: Way, deg: number): Pattern | null => {
    const names = verdictOf(faceLight(scene, sitter, map, moved(key, sitter.posed.eyeMidpoint, way, deg)))
    return names.length === 1 && names[0] !== now ? names[0] : null
  }
  for (let deg = STEP_DEG; deg <= FARTHEST_DEG; deg += STEP_DEG) {
    const found = WAYS.filter((way) => at(way, deg)).map((way): Next => {
      const less = [3, 2, 1].find((back) => at(way, deg - back)) ?? 0
      return { pattern: at(way, deg - less)!, degrees: deg - less, way }
    })
    if (found.length > 0) return found.reduce((a, b) => (b.degrees < a.degrees ? b : a))
  }
  return null
}

/** Rigs are never altered, so a rig's pattern stays; passes over the same rig ask for it again. */
const nexts = new WeakMap<Rig, Next | null>()

function nextOnce(stage: Stage, map: PatternMap, key: Shining, now: string): Next | null {
  const { rig } = stage.scene
  const known = nexts.get(rig)
  if (known !== undefined) return known
  const next = nextPattern(stage, map, key, now)
  nexts.set(rig, next)
  return next
}

/** The pattern of the key, with its distance to the next one where that was asked for. */
export function patternReading(stage: Stage, withNext: boolean): Reading {
  const { key, scene, figure: sitter } = stage
  const place = { name: 'face', at: sitter.posed.landmarks.subnasale.position }
  const formula = 'which places of the face see more than half of the source'
  if (!key) return absent({ id: 'face.pattern', place, formula, source: PRACTICE, sentence: 'no source is on.' })
  if (key.remote?.kind === 'around')
    return absent({
      ...{ id: 'face.pattern', place, formula, source: PRACTICE, sourceId: key.id },
      sentence: `${key.letter} comes from all round and makes no pattern.`,
    })
  const map = patternMap(scene, sitter)
  const shining = shiningOf(scene, key)
  const light = faceLight(scene, sitter, map, shining)
  const names = verdictOf(light)
  const value = names.length === 1 ? names[0] : `between ${names.join(' and ')}`
  const next = withNext ? nextOnce(stage, map, shining, value) : null
  return reading({
    id: 'face.pattern',
    value,
    unit: '',
    text: value,
    place,
    sentence: `is the pattern that ${key.letter} makes, judged by its shadow on this face${next ? `; with ${key.letter} ${wayWords(next)} it is ${next.pattern}` : ''}.`,
    why: {
      formula,
      filled: `${figure(azimuthFromNoseDeg(stage, key.frame.origin))}° from the nose; ${lightWords(light)}; lit ${regionWords(stage, map, shining)}`,
      source: PRACTICE,
    },
    sourceId: key.id,
  })
}

const wayWords = ({ way, degrees }: Next): string =>
  way === 'up' || way === 'down'
    ? `${degrees}° ${way === 'up' ? 'higher' : 'lower'}`
    : `moved ${degrees}° round to ${side(way === 'right' ? 1 : -1)}`

const percent = (share: number): string => `${figure(100 * share)} %`

function lightWords({ nearCheek, farCheek, patch, shadow }: FaceLight): string {
  const triangle = patch.broadMm > 0 && !patch.joined
  return [
    `near cheek ${percent(nearCheek)}, far cheek ${percent(farCheek)}`,
    ...(triangle ? [`its light ${figure(patch.broadMm)} × ${figure(patch.longMm)} mm, cut off from the mouth`] : []),
    `shadow of the nose ${figure(shadow.areaMm2)} mm²`,
  ].join('; ')
}

/** Those that the map covers well; the cheeks are told apart above. */
const TOLD: readonly FaceRegion[] = ['lids', 'upper lip', 'mouth', 'chin', 'jaw']

/** Shares of the face's regions that see the source. */
function regionWords({ scene, figure: sitter }: Stage, { face }: PatternMap, source: Shining): string {
  const regionOf = posedRegions(sitter.posed)
  const lights = cellLights(face, scene, source)
  const counts = new Map<FaceRegion, { lit: number; all: number }>()
  face.cells.forEach((cell, i) => {
    if (!cell) return
    const { region } = regionOf(cell.point)
    const count = counts.get(region) ?? { lit: 0, all: 0 }
    counts.set(region, { lit: count.lit + (lights[i] === 'lit' ? 1 : 0), all: count.all + 1 })
  })
  return FACE_REGIONS.filter((region) => TOLD.includes(region) && counts.has(region))
    .map((region) => `${region} ${percent(counts.get(region)!.lit / counts.get(region)!.all)}`)
    .join(', ')
}
