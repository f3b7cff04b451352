import { viewTangent } from '../camera'
import { sharpFrom } from '../readings'
import { addScaled, dot, subtract } from '../space'
import { planProjection } from './outline'
import { line, text } from './shapes'
import type { DrawingInput, Point2, Shape } from './types'
import { lengthLabel } from './words'

/** Where the picture begins and ceases to be sharp, across the field of the camera in hand; its figures are taped from the lens. */
export function depthInPlan({ sitting, rig, selected, units, fNumber }: DrawingInput): Shape[] {
  const [figure] = rig.figures
  if (selected !== 'camera' || !figure) return []
  const { frame, sensorWidthMm, focalLengthMm } = rig.view
  const focus = dot(subtract(figure.posed.eyeMidpoint, frame.origin), frame.z)
  if (!(focus > 0.05)) return []
  const { near, far } = sharpFrom(sitting.camera, fNumber ?? sitting.camera.fNumber, focus)
  const half = viewTangent(sensorWidthMm, focalLengthMm)
  // Written on the side where the first source does not stand.
  const clear = (rig.sources[0]?.frame.origin[0] ?? -1) < 0
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
