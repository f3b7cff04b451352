/** The named places, found on the fields by ray marching. Millimetres, head-local frame. */
import type { Landmark, LandmarkName } from '../types'
import { CORNEA_CENTRE_Z, CORNEA_RADIUS, EYE_X } from './data/eye'
import { headWeight } from './headWeight'
import type { Field } from './solids'
import { gradient } from './surface'

type Point = readonly [number, number, number]

const CHEEK = { x: 44, y: -20 }
/** Beside the ala, where the edge of the nose shadow lies for a key at 30° to 45°: about 25 mm behind the tip. */
const NOSE_SHADOW = { x: 24, y: -42 }
const MOUTH_CORNER = { x: 25.5, y: -67.6 }

export interface FigureFields {
  /** Head and torso, uncut. */
  readonly bust: Field
  readonly hair: Field
  readonly garment: Field
}

/** First point of the ray inside the field. The steps are half the field's value: it may overstate distance. */
export function march(field: Field, from: Point, direction: Point, reachMm = 400): Point {
  const at = (t: number): Point => [from[0] + direction[0] * t, from[1] + direction[1] * t, from[2] + direction[2] * t]
  let value = Math.abs(field(...from))
  for (let t = 0; t < reachMm; ) {
    const step = Math.max(0.05, value * 0.5)
    const next = field(...at(t + step))
    if (next < 0) return at(bisect((s) => field(...at(s)), t, t + step))
    value = next
    t += step
  }
  throw new Error(
    `sculpt.march: nothing met from [${from.join(', ')}] along [${direction.join(', ')}] in ${reachMm} mm`,
  )
}

function bisect(f: (t: number) => number, outside: number, inside: number): number {
  let [a, b] = [outside, inside]
  for (let i = 0; i < 40; i++) {
    const middle = (a + b) / 2
    if (f(middle) < 0) b = middle
    else a = middle
  }
  return b
}

/** The value in [from, to], on a lattice of the given step, where the score is greatest. */
export function argMax(from: number, to: number, step: number, score: (at: number) => number): number {
  let best = from
  let top = Number.NEGATIVE_INFINITY
  for (let i = 0; from + i * step <= to; i++) {
    const value = score(from + i * step)
    if (value > top) {
      top = value
      best = from + i * step
    }
  }
  return best
}

export const frontOf = (field: Field, x: number, y: number): Point => march(field, [x, y, 120], [0, 0, -1])
export const sideOf = (field: Field, y: number, z: number): Point => march(field, [160, y, z], [-1, 0, 0])

function midlinePlaces({ bust, hair }: FigureFields): Partial<Record<LandmarkName, Point>> {
  const z = (y: number) => frontOf(bust, 0, y)[2]
  const most = (from: number, to: number) => frontOf(bust, 0, argMax(from, to, 0.25, z))
  const least = (from: number, to: number) =>
    frontOf(
      bust,
      0,
      argMax(from, to, 0.25, (y) => -z(y)),
    )
  const under = (at: number) => march(bust, [0, -135, at], [0, 1, 0])
  const top = (at: number) => march(hair, [0, 200, at], [0, -1, 0])
  return {
    noseTip: most(-46, -24),
    subnasale: least(-56, -42),
    sellion: least(-6, 14),
    glabella: most(10, 34),
    foreheadCentre: frontOf(bust, 0, 42),
    stomion: least(-71, -64),
    chin: most(-108, -89),
    menton: under(argMax(0, 22, 0.5, (at) => -under(at)[1])),
    neckFront: frontOf(bust, 0, -130),
    sternalNotch: frontOf(bust, 0, -203),
    crown: top(argMax(-110, -50, 1, (at) => top(at)[1])),
    backOfHead: march(hair, [0, 21, -300], [0, 0, 1]),
  }
}

function leftPlaces({ bust, garment }: FigureFields): Record<string, Point> {
  return {
    eyeCentre: [EYE_X, 0, 0],
    pupil: [EYE_X, 0, CORNEA_CENTRE_Z + CORNEA_RADIUS],
    cheek: frontOf(bust, CHEEK.x, CHEEK.y),
    noseShadowCheek: frontOf(bust, NOSE_SHADOW.x, NOSE_SHADOW.y),
    mouth: frontOf(bust, MOUTH_CORNER.x, MOUTH_CORNER.y),
    ear: sideOf(bust, -17, -71.5),
    shoulder: march(garment, [172, -120, -98], [0, -1, 0]),
  }
}

/** Positions in mm; normals from the field that each place lies on. */
export function findLandmarks(fields: FigureFields): Record<LandmarkName, Landmark> {
  const found: Record<string, Landmark> = {}
  const put = (name: string, position: Point) => {
    found[name] = {
      position,
      normal: normalAt(name, fields, position),
      headWeight: headWeight(position[1], position[2]),
    }
  }
  for (const [name, place] of Object.entries(midlinePlaces(fields))) put(name, place)
  for (const [name, [x, y, z]] of Object.entries(leftPlaces(fields))) {
    put(`${name}Left`, [x, y, z])
    put(`${name}Right`, [-x, y, z])
  }
  return found as Record<LandmarkName, Landmark>
}

function normalAt(name: string, fields: FigureFields, [x, y, z]: Point): Point {
  if (name.startsWith('eye') || name.startsWith('pupil')) return [0, 0, 1]
  const onHair = name === 'crown' || name === 'backOfHead'
  const field = onHair ? fields.hair : name.startsWith('shoulder') ? fields.garment : fields.bust
  const g = new Float64Array(3)
  gradient(field, x, y, z, onHair ? 4 : 0.25, g)
  const size = Math.hypot(g[0], g[1], g[2])
  return [g[0] / size, g[1] / size, g[2] / size]
}
