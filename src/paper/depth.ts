import { viewTangent } from '../camera'
import { sharpFrom } from '../readings'
import type { Rig } from '../rig'
import { addScaled, dot, subtract } from '../space'
import { planProjection } from './outline'
import { hasPlace } from './remote'
import { cornersOf } from './set'
import { lengthOf, line, text } from './shapes'
import type { DrawingInput, Point2, Shape } from './types'
import { lengthLabel } from './words'

/** Half of 'near 1.45' at the scale of a usual plan, metres of the drawing; and as far as nothing else is written. */
const HALF_LABEL_M = 0.3
const FREE_M = 0.6

/** What has a name or a letter on the plan. */
const standing = ({ sources, surfaces }: Rig): readonly Point2[] => [
  ...sources.filter(hasPlace).map((source) => planProjection(source.frame.origin)),
  ...surfaces
    .filter(({ kind }) => kind === 'panel' || kind === 'card')
    .flatMap((surface) => [surface.rect.centre, ...cornersOf(surface)].map(planProjection)),
]

/** Where the picture begins and ceases to be sharp, across the field of the camera in hand; its figures are taped from the lens. */
export function depthInPlan({ sitting, rig, selected, units, fNumber }: DrawingInput): Shape[] {
  const [figure] = rig.figures
  if (selected !== 'camera' || !figure) return []
  const { frame, sensorWidthMm, focalLengthMm } = rig.view
  const focus = dot(subtract(figure.posed.eyeMidpoint, frame.origin), frame.z)
  if (!(focus > 0.05)) return []
  const { near, far } = sharpFrom(sitting.camera, fNumber ?? sitting.camera.fNumber, focus)
  const half = viewTangent(sensorWidthMm, focalLengthMm)
  const depths = Number.isFinite(far) ? [near, far] : [near]
  const room = (side: number): number => {
    const ends = depths.map((depth) => {
      const end = addScaled(addScaled(frame.origin, frame.z, depth), frame.x, side * half * depth)
      return planProjection(addScaled(end, frame.x, side * HALF_LABEL_M))
    })
    return Math.min(...standing(rig).flatMap((at) => ends.map((end) => lengthOf(at, end))))
  }
  // Written on the side where there is more room; where both are free, away from the first source.
  const right = (rig.sources[0]?.frame.origin[0] ?? -1) < 0
  const clear = Math.min(room(-1), FREE_M) === Math.min(room(1), FREE_M) ? right : room(-1) > room(1)
  const across = (depth: number, words: string, after: boolean): Shape[] => {
    const middle = addScaled(frame.origin, frame.z, depth)
    const end = (side: number): Point2 => planProjection(addScaled(middle, frame.x, side * half * depth))
    // The view's x is camera left: its negative end lies at camera right.
    const [left, right] = [end(1), end(-1)]
    return [
      line([left, right], { weight: 'dimension', dash: 'hidden', pencil: true }),
      text(clear ? [right[0] + 0.04, right[1]] : [left[0] - 0.04, left[1]], `${words} ${lengthLabel(depth, units)}`, {
        tone: 'pencil',
        anchor: clear ? 'start' : 'end',
        stands: after ? 'under' : 'over',
      }),
    ]
  }
  return [...across(near, 'near', true), ...(Number.isFinite(far) ? across(far, 'far', false) : [])]
}
