import { USUAL_SYNC_S } from '../camera'
import { modifierKind } from '../gear'
import { bold, plain } from '../print'
import { dialOf, dialStop, figure, type Reading } from '../readings'
import { litFaceOutline, placeLandmarks, type Rig, type RigSource, standingOf } from '../rig'
import { placeOf, RE_EXPOSE_WORDS, type Source } from '../sitting'
import { addScaled, degrees, distance, type Frame, subtract } from '../space'
import { stands } from './tape'
import type { Card, Fact, SheetInput } from './types'
import {
  angle,
  exactLength,
  feet,
  fromX,
  length,
  modifierDetails,
  round,
  shutter,
  sizedWords,
  sourceWords,
  toHand,
} from './words'

export const fact = (name: string, words: Fact['words']): Fact => ({ name, words })
export const some = (facts: readonly (Fact | null)[]): Fact[] => facts.filter((one) => one !== null)

export const readingOf = ({ readings }: SheetInput, id: string): Reading | null =>
  readings.find((reading) => reading.id === id) ?? null

/** What is set on the camera and where it stands, in the words of the page's rows. */
export function cameraCard(input: SheetInput): readonly Fact[] {
  const { sitting, exposure } = input
  const { camera } = sitting
  const [across, height, back] = camera.positionM
  const upright = camera.sensorHeightMm >= camera.sensorWidthMm ? 'upright' : 'level'
  const sync = camera.syncS ?? USUAL_SYNC_S
  return some([
    fact('mode', 'manual, raw'),
    fact('ISO', [bold(`${camera.iso}`)]),
    fact('shutter', [bold(shutter(camera.shutterS))]),
    fact('aperture', [bold(dialStop(exposure.fNumber))]),
    sync === USUAL_SYNC_S ? null : fact('sync', shutter(sync)),
    fact('lens', `${figure(camera.focalLengthMm)} mm`),
    fact('sensor', `${camera.sensorWidthMm} × ${camera.sensorHeightMm} ${upright}`),
    fact('back', exactRuns(back)),
    beside('across', across),
    fact('height', exactRuns(height)),
    ...looksAt(input),
    fact('balance', `${camera.balanceK ?? 5500} K, fixed`),
    fact('focus', 'near eye'),
    camera.hood ? fact('hood', `${figure(1000 * camera.hood.depthM)} mm deep`) : null,
    sitting.reExpose === 'powers' ? null : fact('keep', RE_EXPOSE_WORDS[sitting.reExpose]),
  ])
}

/** To a centimetre and half an inch. */
const exactRuns = (metres: number) => [bold(`${figure(metres, 2)} m`), `, ${feet(metres)}`]

const beside = (name: string, metres: number): Fact | null =>
  Math.abs(metres) < 0.005 ? null : fact(name, `${exactLength(Math.abs(metres))} ${metres > 0 ? 'right' : 'left'}`)

/** Where the frame's middle lies in the upright plane through X, and how far the camera is tilted for it. */
function looksAt({ rig }: SheetInput): readonly (Fact | null)[] {
  const { origin, z } = rig.view.frame
  const tilt = degrees(Math.asin(z[1]))
  const tilted = Math.abs(tilt) < 0.5 ? null : fact('tilt', `${angle(tilt)} ${tilt < 0 ? 'down' : 'up'}`)
  const on = -origin[2] / z[2]
  // A camera that looks along that plane, or away from it, has no such place.
  if (!(on > 0 && on < FARTHEST_FRAME_M)) return [tilted, turnedOff(rig)]
  const [x, y] = addScaled(origin, z, on)
  return [fact('frame', exactRuns(y)), beside('aside', x), tilted]
}

const FARTHEST_FRAME_M = 30

/** A camera that does not point at the sitter's eyes, seen from above. */
function turnedOff(rig: Rig): Fact | null {
  const words = besideEyes(rig, rig.view.frame)
  return words === '' ? null : fact('turned', words)
}

/** '12° to the right of the eyes', seen from above, as what looks along the frame's axis has them; empty: straight at them. */
function besideEyes(rig: Rig, { origin, z }: Frame): string {
  const [toX, , toZ] = subtract(placeLandmarks(rig.figures[0]).eyePoint, origin)
  const off = degrees(Math.atan2(z[0] * toZ - z[2] * toX, z[0] * toX + z[2] * toZ))
  return Math.abs(off) < 0.5 ? '' : `${angle(off)} to the ${off < 0 ? 'right' : 'left'} of the eyes`
}

/** A card for each source, in the order of their letters. */
export function sourceCards(input: SheetInput): readonly Card[] {
  return input.rig.sources
    .map((source) => {
      const entry = input.sitting.sources.find(({ id }) => id === source.id)!
      return {
        title: `${sourceWords(source)}, ${sizedWords(entry.modifier)}`,
        facts: sourceFacts(input, source, entry),
      }
    })
    .sort((a, b) => (a.title < b.title ? -1 : 1))
}

function sourceFacts(input: SheetInput, source: RigSource, entry: Source): Fact[] {
  if (!source.on) return [fact('off', 'it does not fire in this set'), ...placing(input, source)]
  return [...placing(input, source), ...lamp(input, source, entry)]
}

/** Where it stands and where it points. */
function placing(input: SheetInput, source: RigSource): Fact[] {
  const { sitting, rig } = input
  const marks = placeLandmarks(rig.figures[0])
  const place = placeOf(source.frame.origin, sitting.camera, marks)
  const nose = readingOf(input, `source.${source.letter}.azimuthFromNose`)?.value
  const fromNose = typeof nose === 'number' ? `, ${angle(nose)} from the nose` : ''
  if (source.remote?.kind === 'around') return [fact('where', 'all round: the sky')]
  const around = fact('round', [bold(round(place.azimuthFromLensDeg)), ` of the lens${fromNose}`])
  const [up, over] = place.elevationDeg < 0 ? ['down', 'under'] : ['up', 'over']
  const directions = [around, fact(up, [bold(angle(place.elevationDeg)), ` ${over} the eyes`])]
  if (source.remote) return [...directions, fact('where', 'far off: only its direction counts')]
  if (!stands(sitting, source)) return [fact('where', 'on the camera'), ...directions]
  const { origin } = source.frame
  const heights = litFaceOutline(source).map((p) => p[1])
  const [low, high] = [Math.min(...heights), Math.max(...heights)]
  const roll = sitting.sources.find(({ id }) => id === source.id)?.rollDeg ?? 0
  const off = Math.abs(toHand(origin[1]) - toHand(marks.eyePoint[1]))
  return some([
    around,
    // Of the heights as they are printed.
    fact(up, [bold(angle(place.elevationDeg)), `, ${plain(length(off))} ${over} eyes`]),
    fact('to nose', lengthRuns(distance(origin, rig.figures[0].posed.landmarks.noseTip.position))),
    fact('tape', [...lengthRuns(place.tapeM), ` to ${place.tapeTo.replace('near ', '')}`]),
    fact('height', length(origin[1])),
    fact('lower edge', length(low)),
    fact('top edge', [...lengthRuns(high), ...ceilingWords(sitting.room, high)]),
    fact('aim', aimWords(input, source)),
    roll === 0 ? null : fact('roll', `${figure(roll)}° about its own axis`),
  ])
}

export const lengthRuns = (metres: number) => {
  const words = length(metres)
  return typeof words === 'string' ? [words] : words
}

/** Room over it; outdoors none is told. */
const ceilingWords = ({ outdoors, heightM }: SheetInput['sitting']['room'], topM: number): string[] =>
  outdoors ? [] : [`, ${exactLength(heightM - topM)} under the ceiling`]

/** The place that its axis meets and how far down it looks, from the reading's own words; also where, but for nose and chin, which the hand finds. */
function aimWords(input: SheetInput, source: RigSource): string {
  const { letter, frame } = source
  const sentence = readingOf(input, `source.${letter}.aim`)?.sentence ?? ''
  const [, met = 'as drawn', slope = ''] = sentence.match(/ points at (.*?)(, \d+° (?:down|up))?\.$/) ?? []
  const { backdrop } = input.sitting
  if (/^(the (wall|floor|ceiling|panel)|nothing)/.test(met))
    return [met, besideEyes(input.rig, frame)].filter(Boolean).join(', as the lamp looks ') + slope
  if (/^the (chin|nose)/.test(met)) return met + slope
  if (met !== 'the backdrop' || !backdrop)
    return `${met}${slope}: ${exactLength(source.aim[1])} up, ${fromX(source.aim)}`
  const [x, y] = addScaled(frame.origin, frame.z, (-backdrop.distanceM - frame.origin[2]) / frame.z[2])
  const side = Math.abs(x) < 0.005 ? 'over Z' : `${exactLength(Math.abs(x))} to ${x > 0 ? 'R' : 'L'} of Z`
  return `${met}, ${side}, ${exactLength(y)} up${slope}`
}

/** What the lamp is set to, and what a meter shows of it alone. */
function lamp(input: SheetInput, source: RigSource, entry: Source): Fact[] {
  const { letter, id } = source
  const { head, stand } = entry
  const alone = readingOf(input, `source.${letter}.alone`)
  const isSteady = modifierKind(entry.modifier.kind).burnsOn === true
  const dial = input.exposure.perSourceStops[id] ?? head.powerStops
  const joules = head.energyJ * 2 ** dial
  const power = isSteady
    ? fact('power', dial === 0 ? 'as it burns' : `${figure(dial, 1)} stops from its full light`)
    : fact('power', [
        bold(dialOf(head, dial)),
        head.dialStyle === 'joules'
          ? ` of ${head.energyJ} J`
          : ` of ${head.energyJ} J (${figure(joules, joules < 10 ? 1 : 0)} J)`,
      ])
  const gels = [
    head.gelMired ? `gel ${figure(head.gelMired)} mired` : '',
    head.gelColour
      ? `coloured gel, lets through ${head.gelColour.map((share) => `${figure(100 * share)} %`).join(', ')} of red, green, blue`
      : '',
    head.ndStops ? `ND ${figure(head.ndStops, 1)} stops` : '',
  ].filter(Boolean)
  return some([
    power,
    alone ? fact('alone', [bold(alone.text), `, disc to ${letter} at its near cheek`]) : null,
    fact('lamp', [head.name, `${figure(head.colourTemperatureK)} K`, ...gels].filter(Boolean).join(', ')),
    stand ? fact('stand', stand.name) : null,
    boomFact(input, source),
    modifierDetails(entry.modifier) === '' ? null : fact('made so', modifierDetails(entry.modifier)),
  ])
}

/** 'arm 1.50 m, its stand 1.42 m from under the lamp': whence it comes is in the plan and the tape table. */
function boomFact({ sitting, rig }: SheetInput, source: RigSource): Fact | null {
  const { load, foot, pivot } = standingOf(sitting, rig.view, source)
  const level = Math.hypot(foot[0] - load[0], foot[2] - load[2])
  return pivot
    ? fact(
        'boom',
        `${exactLength(distance(load, pivot))}, turns ${exactLength(pivot[1])} up; its stand ${exactLength(level)} from under the lamp`,
      )
    : null
}
