import {
  GAZE_ACROSS_DEG,
  GAZE_UP_DEG,
  type GazeDirection,
  LEAN_LIMIT_M,
  POSTURES,
  type Posture,
  postureOf,
} from '../../figure'
import { type Sitter, type SitterGaze, setGaze, setLean, setPosture, setSitter, shapeOf } from '../../sitting'
import { quantities } from '../values'
import { choice, number, type Row } from './model'

const AHEAD: GazeDirection = { acrossDeg: 0, upDeg: 0 }
const FREE = 'free'
const GAZES = [
  { value: 'ahead', label: 'ahead' },
  { value: 'camera', label: 'at the lens' },
  { value: FREE, label: 'free' },
] as const

/** Where the eyes look; a free direction has its two angles under it. */
export function gazeRows({ id, gaze = 'ahead' }: Sitter): Row[] {
  const free = typeof gaze === 'object' ? gaze : null
  const angle = (field: keyof GazeDirection, label: string, limit: number, ways: readonly [string, string]): Row =>
    number(`gaze.${field}`, {
      label,
      named: `gaze ${label}`,
      quantity: quantities.angleTowards(...ways),
      value: (free ?? AHEAD)[field],
      range: [-limit, limit],
      change: (sitting, value) => setGaze(sitting, id, { ...(free ?? AHEAD), [field]: value }),
    })
  return [
    choice('gaze', {
      label: 'gaze',
      value: free ? FREE : (gaze as string),
      choices: GAZES,
      change: (sitting, value) => setGaze(sitting, id, value === FREE ? (free ?? AHEAD) : (value as SitterGaze)),
    }),
    ...(free
      ? [
          angle('acrossDeg', 'across', GAZE_ACROSS_DEG, ['right', 'left']),
          angle('upDeg', 'up', GAZE_UP_DEG, ['up', 'down']),
        ]
      : []),
  ]
}

/** How far the trunk leans; the sitter's own left is camera right while they face the lens. */
export function leanRows({ id, lean }: Sitter): Row[] {
  const way = (field: 'forwardM' | 'asideM', label: string, named: string, ways: readonly [string, string]): Row =>
    number(`lean.${field}`, {
      label,
      named,
      quantity: { ...quantities.lengthTowards(...ways), step: 0.01 },
      value: lean?.[field] ?? 0,
      range: [-LEAN_LIMIT_M, LEAN_LIMIT_M],
      change: (sitting, value) => setLean(sitting, id, { [field]: value }),
    })
  return [
    way('forwardM', 'lean', 'lean forward', ['forward', 'back']),
    way('asideM', 'aside', 'lean aside', ['right', 'left']),
  ]
}

const OWN = 'own'

/** The row has judged the value: only the last bit of a difference may still lie outside. */
const within = ([least, most]: readonly [number, number], value: number): number =>
  Math.min(most, Math.max(least, value))

/** Of the document's, metres. */
const EYES_M = [0.5, 2.2] as const

/**
 * How high the eyes are, by a word for the most usual heights, and as a tape and the elevation find them: the document has them at rest,
 * and the pose has them higher by `risenM`.
 */
export function heightRows(sitter: Sitter, risenM: number): Row[] {
  const now = postureOf(sitter.eyeHeightM, shapeOf(sitter))
  return [
    choice('posture', {
      label: 'posture',
      value: now ?? OWN,
      choices: [...(now ? [] : [{ value: OWN, label: 'as dialled' }]), ...POSTURES],
      change: (sitting, word) => (word === OWN ? sitting : setPosture(sitting, sitter.id, word as Posture)),
    }),
    number('eyeHeightM', {
      label: 'eyes',
      quantity: quantities.length,
      value: sitter.eyeHeightM + risenM,
      range: [EYES_M[0] + risenM, EYES_M[1] + risenM],
      change: (sitting, value) => setSitter(sitting, sitter.id, { eyeHeightM: within(EYES_M, value - risenM) }),
    }),
  ]
}
