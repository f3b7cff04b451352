import { type BuiltModifier, modellingCandela, modifierKind } from '../gear'
import {
  axialIntensityFromGuideNumber,
  type CandelaSeconds,
  colourFromTemperature,
  gelPass,
  kelvinBehindGel,
  LAMP_RANGE_K,
  luminanceFromSrgb,
  type Rgb,
  ratioFromStops,
} from '../photometry'
import type { Camera, Head, ModellingLamp, Source } from '../sitting'
import { addScaled, type Frame, frameTowards, radians, type Vec3 } from '../space'
import { frameToWorld, solidToWorld } from './place'
import type { RigModelling, RigSource } from './types'

/** Guide number in metres at ISO 100 with the 65° dish, from the lamp's energy: practice, band 2.8 to 3.6 a root joule. */
const GUIDE_NUMBER_PER_ROOT_JOULE = 3.2

/** White balance of a camera that says nothing of it, kelvin: daylight flash comes out neutral. */
export const BALANCE_K = 5500

/** Axial intensity of the head in its 65° dish at its set power, cd·s: its guide number's, times 2 to the power of the stops. */
export function axialIntensity({ energyJ, guideNumberM, powerStops }: Head): CandelaSeconds {
  const guideNumber = guideNumberM ?? GUIDE_NUMBER_PER_ROOT_JOULE * Math.sqrt(energyJ)
  return axialIntensityFromGuideNumber(guideNumber) * ratioFromStops(powerStops)
}

/**
 * The lamp's colour through gels and cloth, luminance 1, and the share of its light that the gels let through: what the cloth
 * loses is counted in its emission.
 */
function throughGels(head: Head, cloth: Rgb, balanceK: number): { readonly colour: Rgb; readonly pass: number } {
  const { colourTemperatureK: lamp, gelMired = 0, gelColour, ndStops = 0 } = head
  const kelvin = gelMired === 0 ? lamp : behindGel(lamp, gelMired)
  const gelled = (balance: number): Rgb => {
    const converted = colourFromTemperature(kelvin, balance)
    return gelColour ? times(converted, gelColour) : converted
  }
  const behind = gelled(balanceK)
  const mixed = times(behind, cloth)
  const y = luminanceFromSrgb(mixed)
  return {
    colour: [mixed[0] / y, mixed[1] / y, mixed[2] / y],
    pass:
      // By the one balance, as a camera's own moves no meter.
      (gelColour ? luminanceFromSrgb(gelled(BALANCE_K)) : 1) *
      (gelMired === 0 ? 1 : gelPass(lamp, gelMired)) *
      ratioFromStops(-ndStops),
  }
}

/**
 * Of any lamp behind any gel, kelvin, held to LAMP_RANGE_K: a flash never leaves that (S19), but its modelling lamp shines through a gel
 * that was chosen for the flash. Beyond the bluest lamp there may be none at all, as mired add up to nothing.
 */
function behindGel(lamp: number, mired: number): number {
  const [least, most] = LAMP_RANGE_K
  const kelvin = kelvinBehindGel(lamp, mired)
  return kelvin > 0 ? Math.min(most, Math.max(least, kelvin)) : most
}

const times = (a: Rgb, b: Rgb): Rgb => [a[0] * b[0], a[1] * b[1], a[2] * b[2]]

/** What a source is as a thing in the room: all that its power, colour and switch leave as it is. */
export interface PlacedSource extends Pick<RigSource, 'frame' | 'aim' | 'emitters' | 'gear' | 'litFace' | 'remote'> {
  readonly tint: Rgb
  /** cd; see BuiltModifier. */
  readonly steadyCd?: number
}

/** The fields that `placeSource` reads; while these stay the same objects and values, so does the placed source. */
export const placeFields = ({ modifier, centreM, aimM, rollDeg }: Source): readonly unknown[] => [
  modifier,
  centreM,
  aimM,
  rollDeg,
]

/** Along the line from its mark to the aim, that far from the aim. */
const farFrame = (here: Frame, aim: Vec3, distanceM: number): Frame => ({
  ...here,
  origin: addScaled(aim, here.z, -distanceM),
})

/** In the zenith, looking down. */
const skyFrame = (distanceM: number): Frame => ({
  origin: [0, distanceM, 0],
  x: [1, 0, 0],
  y: [0, 0, 1],
  z: [0, -1, 0],
})

export function placeSource(source: Source, built: BuiltModifier): PlacedSource {
  const here = frameTowards(source.centreM, source.aimM, radians(source.rollDeg))
  const { remote } = modifierKind(source.modifier.kind)
  const frame =
    remote?.kind === 'around'
      ? skyFrame(remote.distanceM)
      : remote
        ? farFrame(here, source.aimM, remote.distanceM)
        : here
  return {
    frame,
    ...(remote ? { remote: { kind: remote.kind, markM: source.centreM } } : {}),
    aim: source.aimM,
    // Under the level the sun has set.
    emitters: (remote?.kind === 'far' && here.z[1] > 0 ? [] : built.emitters).map(
      ({ id, part, emission, cloth, frame: inner }) => ({
        id,
        part,
        emission,
        ...(cloth ? { cloth } : {}),
        frame: frameToWorld(frame, inner),
      }),
    ),
    gear: built.solids.map((solid) => solidToWorld(frame, solid)),
    litFace: built.litFace,
    tint: built.tint,
    ...(built.steadyCd === undefined ? {} : { steadyCd: built.steadyCd }),
  }
}

type Exposure = Pick<Camera, 'shutterS' | 'balanceK'>

/** The fields that `rigSource` reads: the exposure time only where the source burns on through it. */
export const sourceFields = (
  source: Source,
  placed: PlacedSource,
  { shutterS, balanceK }: Exposure,
): readonly unknown[] => [source, placed, balanceK, placed.steadyCd === undefined ? null : shutterS]

export function rigSource(source: Source, { tint, steadyCd, ...placed }: PlacedSource, camera: Exposure): RigSource {
  const { colour, pass } = throughGels(source.head, tint, camera.balanceK ?? BALANCE_K)
  return {
    id: source.id,
    letter: source.letter,
    role: source.role,
    on: source.on,
    ...(steadyCd === undefined ? {} : { burnsOn: true as const }),
    axialIntensity: lampLight(source.head, steadyCd, camera) * pass * ratioFromStops(source.calibration?.stops ?? 0),
    colour,
    ...(steadyCd === undefined ? modellingOf(source, tint, camera.balanceK ?? BALANCE_K) : {}),
    ...placed,
  }
}

/** Where a head names none. Common practice, no source: 150 to 300 W of halogen, about 3000 to 3200 K. */
export const USUAL_MODELLING: ModellingLamp = {
  lamp: 'halogen',
  powerW: 150,
  colourTemperatureK: 3200,
  followsDial: true,
}

/** It shines through the same gels and cloth from where the flash tube is: small battery flashes have none unless they name it. */
function modellingOf({ head, modifier }: Source, tint: Rgb, balanceK: number): Pick<RigSource, 'modelling'> {
  const isSmall = modifierKind(modifier.kind).onCamera === 'in the shoe' || modifier.kind === 'battery-flash'
  const lamp = head.modelling ?? (isSmall ? null : USUAL_MODELLING)
  if (!lamp) return {}
  const { colour, pass } = throughGels({ ...head, colourTemperatureK: lamp.colourTemperatureK }, tint, balanceK)
  const dial = lamp.followsDial ? ratioFromStops(head.powerStops) : 1
  const candela = modellingCandela(lamp.lamp, lamp.powerW) * dial * pass
  return { modelling: { candela, colour, followsDial: lamp.followsDial } }
}

/** cd of a modelling lamp once re-exposure has multiplied all powers by a factor. */
export const modellingAfter = ({ candela, followsDial }: RigModelling, factor: number): number =>
  followsDial ? candela * factor : candela

const lampLight = (head: Head, steadyCd: number | undefined, { shutterS }: Exposure): CandelaSeconds =>
  steadyCd === undefined ? axialIntensity(head) : steadyCd * shutterS * ratioFromStops(head.powerStops)
