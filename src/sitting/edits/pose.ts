import {
  GAZE_ACROSS_DEG,
  GAZE_UP_DEG,
  gazeTowards,
  HEAD_PIVOT_MM,
  isWithinReach,
  LEAN_LIMIT_M,
  pointFromHead,
} from '../../figure'
import type { Vec3 } from '../../space'
import { poseOf } from '../pose'
import { EditRefused, type Problem } from '../problems'
import type { Sitter, SitterGaze, Sitting } from '../types'
import { changeThing, thingById } from './things'

/** Of the first sitter, metres; it moves by a few millimetres with the shape, which turns a gaze by tenths of a degree. */
const PIVOT = HEAD_PIVOT_MM.map((v) => v / 1000) as unknown as Vec3

/**
 * Where a sitter looks. Throws EditRefused where eyes do not turn that far: a direction outside the range, or a lens that
 * the head, as it is held now, leaves out of reach. (Turned away afterwards, the eyes stop at the end of their range.)
 */
export function setGaze(sitting: Sitting, id: string, gaze: SitterGaze): Sitting {
  const sitter = thingById(sitting, 'sitters', id)
  const path = `sitters[${sitting.sitters.indexOf(sitter)}].gaze`
  if (typeof gaze === 'object') {
    mustLie(`${path}.acrossDeg`, gaze.acrossDeg, GAZE_ACROSS_DEG, '°', EYES_ONLY)
    mustLie(`${path}.upDeg`, gaze.upDeg, GAZE_UP_DEG, '°', EYES_ONLY)
  }
  if (gaze === 'camera') lensMustBeInReach(sitting, sitter, path)
  return changeThing(sitting, 'sitters', id, { gaze })
}

/** How far a sitter leans, metres; what is left out stays. Throws EditRefused beyond LEAN_LIMIT_M either way. */
export function setLean(sitting: Sitting, id: string, change: Partial<NonNullable<Sitter['lean']>>): Sitting {
  const sitter = thingById(sitting, 'sitters', id)
  const lean = { forwardM: 0, asideM: 0, ...sitter.lean, ...change }
  const path = `sitters[${sitting.sitters.indexOf(sitter)}].lean`
  for (const way of ['forwardM', 'asideM'] as const)
    mustLie(`${path}.${way}`, lean[way], LEAN_LIMIT_M, ' m', 'Lean less, or move the sitter or the set.')
  return changeThing(sitting, 'sitters', id, { lean })
}

const EYES_ONLY = 'Turn the head for the rest of the way.'

function mustLie(path: string, value: number, limit: number, unit: string, advice: string): void {
  // Not `> limit`: that would let NaN pass.
  if (Math.abs(value) <= limit) return
  refuse({ path, expected: `-${limit} to ${limit}${unit}`, got: `${value}`, advice })
}

function lensMustBeInReach(sitting: Sitting, sitter: Sitter, path: string): void {
  const { camera } = sitting
  const to = gazeTowards(pointFromHead(PIVOT, poseOf(sitter, camera), camera.positionM))
  if (isWithinReach(to)) return
  refuse({
    path,
    expected: `a lens within ${GAZE_ACROSS_DEG}° across and ${GAZE_UP_DEG}° up or down of where the head faces`,
    got: `${told(to.acrossDeg)}° across, ${told(Math.abs(to.upDeg))}° ${to.upDeg < 0 ? 'down' : 'up'}`,
    advice: 'Turn the head towards the lens first, or let the eyes look elsewhere.',
  })
}

const told = (degrees: number): string => Math.abs(degrees).toFixed(0)

function refuse(problem: Omit<Problem, 'rule'>): never {
  throw new EditRefused({ rule: 'S17', ...problem })
}
