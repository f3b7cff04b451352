import { type DisplayMode, exposureScale, viewTangent } from '../camera'
import { lensBlur, modellingAfter, type Rig, type RigSource, type View } from '../rig'
import { dot } from '../space'
import type { Recombination } from './recombine'

/** What gives way so that the metered place keeps its exposure: all powers together, or the f-number. */
export interface ReExposure {
  /** Stops by which all sources together are raised. */
  readonly factorStops: number
  readonly fNumber: number
}

interface RecombinationOptions {
  /** Id of the only source shown. */
  readonly solo?: string | null
  readonly mode?: DisplayMode
  /** By the modelling lamps and what burns on, as bright as the first flash that has one is by flash. */
  readonly modelling?: boolean
  /** Of the camera's lens, mm: what is out of focus is blurred, focused on the eyes. Left out: all is sharp. */
  readonly blurOfMm?: number | undefined
}

/**
 * How the layers are weighed. null: nothing is read yet, and all stays as set.
 */
export function recombinationOf(
  rig: Rig,
  exposure: ReExposure | null,
  { solo = null, mode = 'plain', modelling = false, blurOfMm }: RecombinationOptions = {},
): Recombination {
  const gain = 2 ** (exposure?.factorStops ?? 0)
  const fNumber = exposure?.fNumber ?? rig.view.fNumber
  const blur = blurOfMm === undefined ? null : lensBlur(rig, fNumber, blurOfMm)
  const lit = modelling ? byModellingLamps(rig, gain) : rig.sources
  const shown = lit.map((source) => ({
    sourceId: source.id,
    on: solo === null ? source.on : source.id === solo,
    factor: source.axialIntensity * gain,
    rgb: source.colour,
    ...(source.burnsOn ? { burnsOn: true } : {}),
  }))
  return {
    weights: shown,
    exposure: exposureScale(rig.view.iso, fNumber),
    mode,
    ...(rig.view.darkSide && shown.some(({ on, burnsOn }) => on && !burnsOn) ? { dark: darkOf(rig.view) } : {}),
    ...(blur ? { blur } : {}),
  }
}

/**
 * Every source as it shines between flashes, all by one factor so that the key, or else the first with a modelling lamp, is as bright as by
 * its flash: who looks, or meters, makes up for the rest. Without any lamp only what burns on is left, as it is.
 * gain: by what re-exposure will multiply all of it, and turns the dials.
 */
function byModellingLamps({ sources, view }: Rig, gain: number): readonly Shining[] {
  const lamps = sources.filter(({ on, modelling, axialIntensity }) => on && modelling && axialIntensity > 0)
  const first = lamps.find(({ role }) => role === 'key') ?? lamps[0]
  const seconds = first ? (first.axialIntensity * gain) / modellingAfter(first.modelling!, gain) : view.shutterS
  return sources.map((source) => {
    const { id, on, burnsOn, modelling, axialIntensity } = source
    if (burnsOn) return { ...source, axialIntensity: (axialIntensity / view.shutterS) * seconds }
    if (!modelling) return { id, on, burnsOn: true, axialIntensity: 0, colour: source.colour }
    const shining = modellingAfter(modelling, gain) / gain
    return { id, on, burnsOn: true, axialIntensity: shining * seconds, colour: modelling.colour }
  })
}

type Shining = Pick<RigSource, 'id' | 'on' | 'burnsOn' | 'axialIntensity' | 'colour'>

/** The dark side as a line in the picture: dark where a·x + b·y + c > 0, x and y from −1 to 1, rightwards and up. */
function darkOf({
  darkSide,
  frame,
  focalLengthMm,
  sensorWidthMm,
  sensorHeightMm,
}: View): readonly [number, number, number] {
  const v = darkSide!
  return [
    -dot(v, frame.x) * viewTangent(sensorWidthMm, focalLengthMm),
    dot(v, frame.y) * viewTangent(sensorHeightMm, focalLengthMm),
    dot(v, frame.z),
  ]
}
