import { LANDMARK_NAMES } from '../figure'
import { distance } from '../space'
import { type Problem, shown } from './problems'
import type { MeterPlace, Sitting } from './types'

type Set = Pick<Sitting, 'sitters' | 'sources' | 'backdrop'>
type Told = Omit<Problem, 'rule'>

/** Nearer, and where a meter points is noise, metres. */
const LEAST_AIM_M = 0.01

/** S8 of one meter place. path: 'meterPlaces[2]'. */
export function problemsOfMeterPlace(sitting: Set, place: MeterPlace, path: string): Problem[] {
  const told = [...holdProblems(sitting, place, `${path}.at`), ...aimProblems(sitting, place, path)]
  return told.map((problem) => ({ rule: 'S8', ...problem }))
}

function holdProblems(sitting: Set, { at }: MeterPlace, path: string): Told[] {
  if ('acrossShare' in at)
    return sitting.backdrop
      ? []
      : [
          {
            path,
            expected: 'a backdrop to hold the meter on',
            got: 'none',
            advice: 'Hang a backdrop, or measure a free point.',
          },
        ]
  if (!('sitterId' in at)) return []
  const ids = sitting.sitters.map(({ id }) => id)
  return [
    ...(ids.includes(at.sitterId)
      ? []
      : [
          {
            path: `${path}.sitterId`,
            expected: `the id of a sitter: ${ids.join(', ')}`,
            got: shown(at.sitterId),
            advice: 'Name a sitter of this sitting, or measure a free point.',
          },
        ]),
    ...((LANDMARK_NAMES as readonly string[]).includes(at.landmark)
      ? []
      : [
          {
            path: `${path}.landmark`,
            expected: `a landmark: ${LANDMARK_NAMES.join(', ')}`,
            got: shown(at.landmark),
            advice: 'Use one of these names.',
          },
        ]),
  ]
}

function aimProblems(sitting: Set, { at, facing, sourceIds = [] }: MeterPlace, path: string): Told[] {
  const ids = sitting.sources.map(({ id }) => id)
  const unknown = (id: string, where: string): Told[] =>
    ids.includes(id)
      ? []
      : [
          {
            path: where,
            expected: `the id of a source: ${ids.join(', ') || 'there is none'}`,
            got: shown(id),
            advice: 'Name a source of this sitting.',
          },
        ]
  const listed = sourceIds.flatMap((id, i) => unknown(id, `${path}.sourceIds[${i}]`))
  if (facing === 'square' && 'pointM' in at)
    return [
      ...listed,
      {
        path: `${path}.facing`,
        expected: 'a sitter or a backdrop under a meter that is held square',
        got: 'a free point',
        advice: 'Aim it at a source, at the lens or at a point.',
      },
    ]
  if (typeof facing === 'string') return listed
  if ('sourceId' in facing) return [...listed, ...unknown(facing.sourceId, `${path}.facing.sourceId`)]
  const gap = 'pointM' in at ? distance(at.pointM, facing.aimM) : LEAST_AIM_M
  if (gap >= LEAST_AIM_M) return listed
  return [
    ...listed,
    {
      path: `${path}.facing.aimM`,
      expected: `a point at least ${LEAST_AIM_M} m away from the meter`,
      got: `${shown(facing.aimM)}, ${gap.toFixed(4)} m away`,
      advice: 'Aim it at something else.',
    },
  ]
}
