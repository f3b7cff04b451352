import type { Target } from '../../paper'
import { EditRefused, listOf, type Problem, type Sitting, setSitter, thingById } from '../../sitting'
import { add, subtract, type Vec3 } from '../../space'
import { pointOf, putAt } from './moves'

/** Where a thing that is in hand with another is grabbed; null: what no hand moves. */
function targetOf(sitting: Sitting, id: string): Target | null {
  if (id === 'camera' || (id === 'backdrop' && sitting.backdrop)) return { type: id }
  const list = listOf(sitting, id)
  const types = { sources: 'source', panels: 'panel', objects: 'object', meterPlaces: 'meter', sitters: null } as const
  const type = list && types[list]
  return type && { type, id }
}

/**
 * The sitting after a move, with what else is in hand moved along by as much; a turn moves nothing along. Throws EditRefused with the
 * first sitter in hand: the set is measured from there, and half of what is in hand would stay.
 */
export function together(before: Sitting, after: Sitting, target: Target, also: readonly string[]): Sitting {
  const [from, to] = [pointOf(before, target), pointOf(after, target)]
  if (!from || !to || target.type === 'aim') return after
  const by = subtract(to, from)
  if (also.includes(before.sitters[0].id)) throw new EditRefused(FIRST_STAYS)
  return also.reduce((sitting, id) => movedBy(sitting, id, by), after)
}

const FIRST_STAYS: Problem = {
  rule: 'S9',
  path: 'sitters[0]',
  expected: 'things that can move: the set is measured from the first sitter, who stays at X',
  got: 'the first sitter among them',
  advice: 'Let the sitter go and move the rest the other way: what counts is where they stand to each other.',
}

/** A thing that is in hand with another, as far along; of sitters those beside the first, on the floor. */
function movedBy(sitting: Sitting, id: string, by: Vec3): Sitting {
  if (listOf(sitting, id) === 'sitters') return moveSitter(sitting, id, by)
  const other = targetOf(sitting, id)
  const at = other && pointOf(sitting, other)
  return other && at ? putAt(sitting, other, add(at, by)) : sitting
}

/** As far as the document lets a further sitter stand from the first, metres. */
const FARTHEST_M = 10

function moveSitter(sitting: Sitting, id: string, [dx, , dz]: Vec3): Sitting {
  const { xM, zM } = thingById(sitting, 'sitters', id)
  const to = { xM: xM + dx, zM: zM + dz }
  if (Math.max(Math.abs(to.xM), Math.abs(to.zM)) <= FARTHEST_M) return setSitter(sitting, id, to)
  throw new EditRefused({
    rule: 'S15',
    path: `sitters.${id}`,
    expected: `a place within ${FARTHEST_M} m of the first sitter`,
    got: `${to.xM.toFixed(1)}, ${to.zM.toFixed(1)}`,
    advice: 'Move it less far, or fewer things together.',
  })
}
