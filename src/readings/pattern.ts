import type { MeterScene } from '../meter'
import type { RigFigure, RigSource } from '../rig'
import { add, dot, radians, rotateAbout, subtract, type Vec3 } from '../space'
import { type FaceMap, faceMap, litCells, STEP_MM, spreadFrom } from './face-map'
import { azimuthFromNoseDeg } from './placing'
import { absent, PRACTICE, reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import { figure } from './words'

export type Pattern = 'flat' | 'butterfly' | 'loop' | 'Rembrandt' | 'split' | 'rim'

/** The far cheek between eye and nose wing, millimetres from the midline and under the eye line. */
const CHEEK = { from: 18, to: 46, top: -12, bottom: -44 }
/** Less lit skin than this on the far cheek is none: a grain of the grid, not a triangle. */
const LEAST_TRIANGLE = 0.05
/** The nose's shadow counts from this area on, above the mouth; of a nose half as deep from half of it. */
const LEAST_SHADOW_MM2 = 40
const MOUTH_MM = -64
const AVERAGE_NOSE_M = 0.0148
/** The tip's shadow falls down, not aside, within this share of the nose's depth from the midline: 22° round. */
const CENTRED = 0.4

/**
 * The pattern by the shadow on the actual head, the source taken at its centre:
 * rim: behind the face; split: no light on the far cheek; Rembrandt: light there that the nose's shadow cuts off from
 * the mouth; loop: a nose shadow aside that leaves them joined; butterfly: one straight down; flat: none to see.
 */
function patternOf(scene: MeterScene, figure: RigFigure, map: FaceMap, source: RigSource, at: Vec3): Pattern {
  const towards = subtract(at, figure.posed.eyeMidpoint)
  if (
    dot(towards, figure.posed.noseDirection) <= 0 &&
    Math.abs(dot(towards, map.left)) < -dot(towards, figure.posed.noseDirection)
  )
    return 'rim'
  const lights = litCells(map, scene, at, scene.bodies.gearOf.get(source.id) ?? new Set())
  const farSign = dot(towards, map.left) > 0 ? -1 : 1
  const inCheek = (i: number) => {
    const cell = map.cells[i]
    const x = (cell?.xMm ?? 0) * farSign
    return cell !== null && x >= CHEEK.from && x <= CHEEK.to && cell.yMm <= CHEEK.top && cell.yMm >= CHEEK.bottom
  }
  const all = map.cells.flatMap((cell, i) => (cell ? [i] : []))
  const cheek = all.filter(inCheek)
  const litCheek = cheek.filter((i) => lights[i] === 'lit')
  if (litCheek.length < LEAST_TRIANGLE * cheek.length) return 'split'
  const reached = spreadFrom(map, lights, litCheek)
  const joined = [...reached].some((i) => map.cells[i]!.xMm * farSign < 0)
  if (!joined) return 'Rembrandt'
  const shadow = all.filter(
    (i) => lights[i] === 'shadow' && Math.abs(map.cells[i]!.xMm) <= CHEEK.to && map.cells[i]!.yMm > MOUTH_MM,
  )
  const { noseTip, subnasale } = figure.posed.landmarks
  const depth = dot(subtract(noseTip.position, subnasale.position), figure.posed.noseDirection) / AVERAGE_NOSE_M
  if (shadow.length * STEP_MM ** 2 < LEAST_SHADOW_MM2 * depth) return 'flat'
  return Math.abs(dot(towards, map.left)) < CENTRED * dot(towards, figure.posed.noseDirection) ? 'butterfly' : 'loop'
}

const FARTHEST_DEG = 20

/** The nearest other pattern when the source walks round the sitter, and how far. null: none within 20°. */
function nextPattern(stage: Stage, map: FaceMap, key: RigSource, now: Pattern) {
  const { scene, figure: sitter } = stage
  const eye = sitter.posed.eyeMidpoint
  const at = (deg: number): Pattern => {
    const moved = add(eye, rotateAbout(subtract(key.frame.origin, eye), [0, 1, 0], radians(deg)))
    return patternOf(scene, sitter, map, key, moved)
  }
  for (let deg = 4; deg <= FARTHEST_DEG; deg += 4)
    for (const sign of [1, -1]) {
      if (at(sign * deg) === now) continue
      const exact = [3, 2, 1].find((less) => at(sign * (deg - less)) !== now)
      const degrees = deg - (exact ?? 0)
      return { degrees, pattern: at(sign * degrees) }
    }
  return null
}

/** The pattern of the key, with its distance to the next one where that was asked for. */
export function patternReading(stage: Stage, withNext: boolean): Reading {
  const { key, scene, figure: sitter } = stage
  const place = { name: 'face', at: sitter.posed.landmarks.subnasale.position }
  const formula = 'which places of the face see the centre of the source'
  if (!key) return absent({ id: 'face.pattern', place, formula, source: PRACTICE, sentence: 'no source is on.' })
  const map = faceMap(scene, sitter)
  const pattern = patternOf(scene, sitter, map, key, key.frame.origin)
  const next = withNext ? nextPattern(stage, map, key, pattern) : null
  const azimuth = azimuthFromNoseDeg(stage, key.frame.origin)
  return reading({
    id: 'face.pattern',
    value: pattern,
    unit: '',
    text: pattern,
    place,
    sentence: `is the pattern that ${key.letter} makes, judged by its shadow on this face${next ? `: ${next.degrees}° from ${next.pattern}` : ''}.`,
    why: {
      formula,
      filled: `${figure(azimuth)}° from the nose, ${map.cells.filter(Boolean).length} places of skin`,
      source: PRACTICE,
    },
    sourceId: key.id,
  })
}
