import { farBlurDiameter, projectToFrame } from '../camera'
import { addScaled, dot, subtract, type Vec3 } from '../space'
import type { Rig, View } from './types'

/** How what is out of focus is spread: a point at depth u over a disc of farShare·|u − focus|/u of the picture's width. */
export interface LensBlur {
  readonly focusM: number
  readonly farShare: number
}

/** The largest disc that a picture draws, as a share of its width. */
export const MOST_BLUR = 1 / 8

type Seen = Pick<Rig, 'figures' | 'view'>

/**
 * On the sensor a point is spread over a disc (camera's blurDiameter); the picture is the sensor, a crop is that of a longer lens. null:
 * there is nobody to focus on, or they are nearer than a lens focuses.
 */
export function lensBlur({ figures, view }: Seen, fNumber: number, focalLengthMm: number): LensBlur | null {
  const [sitter] = figures
  const focusM = sitter ? depthOf(view, sitter.posed.eyeMidpoint) : 0
  if (!(1000 * focusM > 2 * focalLengthMm)) return null
  const onSensorMm = farBlurDiameter(focalLengthMm, fNumber, 1000 * focusM)
  return { focusM, farShare: (onSensorMm * view.focalLengthMm) / focalLengthMm / view.sensorWidthMm }
}

const depthOf = ({ frame }: View, at: Vec3): number => dot(subtract(at, frame.origin), frame.z)

/** Whether something in the frame would be spread farther than MOST_BLUR: sitters, panels, and what hangs or stands behind them. */
export function isBlurCut(rig: Seen & Pick<Rig, 'surfaces'>, fNumber: number, focalLengthMm: number): boolean {
  const blur = lensBlur(rig, fNumber, focalLengthMm)
  if (!blur) return false
  const { focusM, farShare } = blur
  return seenDepths(rig).some((depth) => (farShare * Math.abs(depth - focusM)) / depth > MOST_BLUR)
}

/** Places of each surface that are looked for in the frame, from its middle to its border. */
const SHARES = [-0.95, -0.5, 0, 0.5, 0.95]

function seenDepths({ figures, surfaces, view }: Seen & Pick<Rig, 'surfaces'>): readonly number[] {
  const inFrame = (at: Vec3): boolean => {
    const place = projectToFrame(at, view.frame, view)
    return place !== null && Math.abs(place.x) <= 1 && Math.abs(place.y) <= 1
  }
  const places = surfaces.map(({ kind, rect: { centre, halfU, halfV } }) => ({
    kind,
    seen: SHARES.flatMap((u) => SHARES.map((v) => addScaled(addScaled(centre, halfU, u), halfV, v)).filter(inFrame)),
  }))
  // What hangs before a wall hides it.
  const hangs = places.some(({ kind, seen }) => kind === 'backdrop' && seen.length > 0)
  return [
    ...figures.flatMap(({ posed }) => Object.values(posed.landmarks).map(({ position }) => position)).filter(inFrame),
    ...places.filter(({ kind }) => !(hangs && kind === 'wall')).flatMap(({ seen }) => seen),
  ].map((at) => depthOf(view, at))
}
