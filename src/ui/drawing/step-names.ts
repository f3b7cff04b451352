import { modifierKind } from '../../gear'
import type { Target } from '../../paper'
import { type PlaceLandmarks, type Sitting, type StepWords, sourcePlace, steeperBy, thingById } from '../../sitting'
import { valuesTold } from '../controls/values-told'
import { thingsOf } from '../controls/words'
import { formatAngle, formatLength, type LengthUnits } from '../values'
import { pointOf, selectionOf } from './moves'

/** Less than this was not meant, metres and degrees. */
const LEAST = { m: 0.005, deg: 0.5 }
const SIDES = ['right', 'left'] as const
const UPS = ['up', 'down'] as const

/** What a move of the hand did, for undo: 'A round to 50° right, 20 cm nearer', 'head of sitter to 20° left'. */
export const moveName =
  (target: Target, marks: PlaceLandmarks | null, units: LengthUnits) =>
  (before: Sitting, after: Sitting): string => {
    const word = wordOf(after, target)
    const parts = partsOf(before, after, target, marks, units)
    return parts.length > 0 ? `${word} ${parts.join(', ')}` : `${word} moved`
  }

/** The same with its numbers before and after in full; more: what follows both. */
export const moveTold =
  (target: Target, marks: PlaceLandmarks | null, units: LengthUnits) =>
  (before: Sitting, after: Sitting, more = ''): StepWords => {
    const name = `${moveName(target, marks, units)(before, after)}${more}`
    const told = valuesTold(before, after, selectionOf(target), marks, units)
    return told === null ? { name } : { name, inFull: `${told}${more}` }
  }

export const putBackName = (sitting: Sitting, target: Target): string => `${wordOf(sitting, target)} put back`

function wordOf(sitting: Sitting, target: Target): string {
  const word = thingsOf(sitting).find(({ id }) => id === selectionOf(target))?.word ?? target.type
  if (target.type === 'aim') return `aim of ${word}`
  return target.type === 'nose' ? `head of ${word}` : word
}

function partsOf(
  before: Sitting,
  after: Sitting,
  target: Target,
  marks: PlaceLandmarks | null,
  units: LengthUnits,
): string[] {
  switch (target.type) {
    case 'source':
      return marks ? sourceParts(before, after, target.id, marks, units) : []
    case 'nose':
      return [`to ${formatAngle(thingById(after, 'sitters', target.id).headTurnDeg, SIDES)}`]
    case 'sitter': {
      const [was, is] = [before, after].map((sitting) => thingById(sitting, 'sitters', target.id).eyeHeightM)
      if (was !== is) return [`eyes to ${formatLength(is!, units)}`]
      return [`turned to ${formatAngle(thingById(after, 'sitters', target.id).bodyTurnDeg, SIDES)}`]
    }
    case 'backdrop':
      return [`to ${formatLength(after.backdrop?.distanceM ?? 0, units)} behind`]
    default:
      return shiftParts(before, after, target, units)
  }
}

/** As a photographer says it: round, up, nearer; of the sun, which is far, by angles alone. */
function sourceParts(before: Sitting, after: Sitting, id: string, marks: PlaceLandmarks, units: LengthUnits): string[] {
  const [from, to] = [before, after].map((sitting) => {
    const source = thingById(sitting, 'sources', id)
    return { ...sourcePlace(source, sitting.camera, marks), heightM: source.centreM[1] }
  }) as [ReturnType<typeof sourcePlace> & { heightM: number }, ReturnType<typeof sourcePlace> & { heightM: number }]
  const [rise, out] = [to.heightM - from.heightM, to.tapeM - from.tapeM]
  const parts: string[] = []
  if (Math.abs(to.azimuthFromLensDeg - from.azimuthFromLensDeg) >= LEAST.deg)
    parts.push(`round to ${formatAngle(to.azimuthFromLensDeg, SIDES)}`)
  if (modifierKind(thingById(after, 'sources', id).modifier.kind).remote) {
    const up = to.elevationDeg - from.elevationDeg
    return Math.abs(up) < LEAST.deg ? parts : [...parts, `${up > 0 ? 'up' : 'down'} to ${formatAngle(to.elevationDeg)}`]
  }
  const angle = formatAngle(to.elevationDeg, UPS)
  const rises = Math.abs(rise) >= LEAST.m
  const angleKept = Math.abs(to.elevationDeg - from.elevationDeg) < LEAST.deg
  if (rises && !angleKept)
    parts.push(`${rise > 0 ? 'raised' : 'lowered'} to ${angle}, ${formatLength(to.heightM, units)} high`)
  if (Math.abs(out) >= LEAST.m && from.tapeTo === to.tapeTo)
    parts.push(`${short(out, units)} ${out < 0 ? 'nearer' : 'farther'}${rises && angleKept ? ` at ${angle}` : ''}`)
  else if (rises && angleKept) parts.push(`${formatLength(to.heightM, units)} high at ${angle}`)
  const by = steeperBy(before, after, id, marks)
  if (by !== null) parts.push(`${formatAngle(Math.abs(by))} ${by > 0 ? 'steeper' : 'flatter'}, as its height stayed`)
  return parts
}

/** Along the room's axes, the longest way first. */
function shiftParts(before: Sitting, after: Sitting, target: Target, units: LengthUnits): string[] {
  const [from, to] = [pointOf(before, target), pointOf(after, target)]
  if (!from || !to) return []
  const depth = target.type === 'camera' ? ['back', 'in'] : ['to the lens', 'from the lens']
  const ways = [SIDES, ['up', 'down'], depth] as const
  return ways
    .map((way, axis) => ({ way, by: to[axis]! - from[axis]! }))
    .filter(({ by }) => Math.abs(by) >= LEAST.m)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by))
    .slice(0, 2)
    .map(({ way, by }) => `${short(by, units)} ${by > 0 ? way[0] : way[1]}`)
}

/** '5 cm', '1.20 m', or feet and inches. */
const short = (metres: number, units: LengthUnits): string =>
  units === 'metres' && Math.abs(metres) < 1
    ? `${Math.round(Math.abs(metres) * 100)} cm`
    : formatLength(Math.abs(metres), units)
