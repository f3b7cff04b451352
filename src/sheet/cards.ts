import { modifierKind } from '../gear'
import { namesOf } from '../paper'
import { bold } from '../print'
import { dialOf, dialStop, figure, type Reading } from '../readings'
import { litFaceOutline, placeLandmarks, type Rig, type RigSource, standingOf, wearOf } from '../rig'
import { panelWords, placeOf, type Source } from '../sitting'
import { addScaled, degrees, distance, type Frame, subtract } from '../space'
import { stands } from './tape'
import type { Card, Fact, SheetInput } from './types'
import { angle, exactLength, length, modifierDetails, modifierWords, round, shutter, sourceWords } from './words'

const fact = (name: string, words: Fact['words']): Fact => ({ name, words })
const some = (facts: readonly (Fact | null)[]): Fact[] => facts.filter((one) => one !== null)

export const readingOf = ({ readings }: SheetInput, id: string): Reading | null =>
  readings.find((reading) => reading.id === id) ?? null

/** What is set on the camera and where it stands. */
export function cameraCard(input: SheetInput): readonly Fact[] {
  const { sitting, rig, exposure } = input
  const { camera } = sitting
  const { eyePoint } = placeLandmarks(rig.figures[0])
  const tilt = degrees(Math.asin(rig.view.frame.z[1]))
  const upright = camera.sensorHeightMm >= camera.sensorWidthMm ? 'upright' : 'level'
  return some([
    fact('mode', 'manual, raw'),
    fact('ISO', [bold(`${camera.iso}`)]),
    fact('shutter', [bold(shutter(camera.shutterS))]),
    fact('aperture', [bold(dialStop(exposure.fNumber))]),
    fact(
      'lens',
      `${figure(camera.focalLengthMm)} mm, frame ${camera.sensorWidthMm} × ${camera.sensorHeightMm} mm ${upright}`,
    ),
    fact('to the eyes', length(distance(camera.positionM, eyePoint))),
    fact('lens height', length(camera.positionM[1])),
    Math.abs(tilt) < 0.5 ? null : fact('tilt', `${angle(tilt)} ${tilt < 0 ? 'down' : 'up'}`),
    turnedOff(input),
    fact('balance', `${camera.balanceK ?? 5500} K, fixed`),
    fact('focus', 'near eye'),
    camera.hood ? fact('hood', `${figure(1000 * camera.hood.depthM)} mm deep`) : null,
  ])
}

/** A camera that does not point at the sitter's eyes, seen from above. */
function turnedOff({ rig }: SheetInput): Fact | null {
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
        title: `${sourceWords(source)}, ${modifierWords(entry.modifier)}`,
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
  const directions = [
    fact('round', [bold(round(place.azimuthFromLensDeg)), ` of the lens${fromNose}`]),
    fact(place.elevationDeg < 0 ? 'down' : 'up', [
      bold(angle(place.elevationDeg)),
      place.elevationDeg < 0 ? ' under the eye line' : ' over the eye line',
    ]),
  ]
  if (source.remote) return [...directions, fact('where', 'far off: only its direction counts')]
  if (!stands(sitting, source)) return [fact('where', 'on the camera'), ...directions]
  const { origin, z } = source.frame
  const tilt = degrees(Math.asin(z[1]))
  const heights = litFaceOutline(source).map((p) => p[1])
  const [low, high] = [Math.min(...heights), Math.max(...heights)]
  const roll = sitting.sources.find(({ id }) => id === source.id)?.rollDeg ?? 0
  return some([
    ...directions,
    fact('to nose', [...lengthRuns(distance(origin, rig.figures[0].posed.landmarks.noseTip.position)), '']),
    fact(`to ${place.tapeTo.replace('near ', '')}`, [...lengthRuns(place.tapeM)]),
    fact('centre', [
      ...lengthRuns(origin[1]),
      ` (eye ${figure(origin[1] - marks.eyePoint[1], 2)
        .replace(/^(?!−)/, '+ ')
        .replace('−', '− ')})`,
    ]),
    fact('lower edge', length(low)),
    fact('top edge', [...lengthRuns(high), ...ceilingWords(sitting.room, high)]),
    fact('aim', `${aimWords(input, source)}, ${angle(tilt)} ${tilt < 0 ? 'down' : 'up'}`),
    roll === 0 ? null : fact('turned', `${angle(roll)} about its own axis`),
  ])
}

const lengthRuns = (metres: number) => {
  const words = length(metres)
  return typeof words === 'string' ? [words] : words
}

/** Room over it; outdoors none is told. */
const ceilingWords = ({ outdoors, heightM }: SheetInput['sitting']['room'], topM: number): string[] =>
  outdoors ? [] : [`, ${figure(heightM - topM, 2)} under the ceiling`]

/** The place that its axis meets, from the reading's own words; on the backdrop also where. */
function aimWords(input: SheetInput, source: RigSource): string {
  const { letter, frame } = source
  const sentence = readingOf(input, `source.${letter}.aim`)?.sentence ?? ''
  const met = sentence.match(/ points at (.*)\.$/)?.[1] ?? 'as drawn'
  const { backdrop } = input.sitting
  if (/^(the (wall|floor|ceiling|panel)|nothing)/.test(met))
    return [met, besideEyes(input.rig, frame)].filter(Boolean).join(', as the lamp looks ')
  if (met !== 'the backdrop' || !backdrop) return met
  const [x, y] = addScaled(frame.origin, frame.z, (-backdrop.distanceM - frame.origin[2]) / frame.z[2])
  const side = Math.abs(x) < 0.005 ? 'over Z' : `${exactLength(Math.abs(x))} to ${x > 0 ? 'R' : 'L'} of Z`
  return `${met}, ${side}, ${exactLength(y)} up`
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

/** Sitters, panels, backdrop and room: all else that a stranger needs. */
export function setCards(input: SheetInput): readonly Card[] {
  const { sitting } = input
  return [...sitterCards(input), ...panelCards(input), backdropCard(input), roomCard(sitting.room)].filter(
    (card) => card !== null,
  )
}

function sitterCards({ sitting, rig }: SheetInput): readonly Card[] {
  return sitting.sitters.map((sitter, i) => {
    const turned = (degreesTo: number, name: string) =>
      fact(name, Math.abs(degreesTo) < 0.5 ? 'straight to the camera' : round(degreesTo))
    const { hairCut, headwear } = wearOf(sitter)
    const gaze = sitter.gaze ?? 'ahead'
    const posed = rig.figures[i]?.posed
    return {
      title: i === 0 ? 'Sitter' : `Sitter ${i + 1}`,
      facts: some([
        fact('eye line', length(posed?.eyeMidpoint[1] ?? sitter.eyeHeightM)),
        turned(sitter.bodyTurnDeg, 'body'),
        turned(sitter.headTurnDeg, 'head'),
        Math.abs(sitter.chinDeg) < 0.5
          ? null
          : fact('chin', `${angle(sitter.chinDeg)} ${sitter.chinDeg > 0 ? 'up' : 'down'}`),
        Math.abs(sitter.headTiltDeg) < 0.5 ? null : fact('crown', `leans ${round(sitter.headTiltDeg)}`),
        fact(
          'eyes',
          gaze === 'ahead'
            ? 'ahead with the head'
            : gaze === 'camera'
              ? 'to the lens'
              : `${round(gaze.acrossDeg)} and ${angle(gaze.upDeg)} ${gaze.upDeg < 0 ? 'down' : 'up'} from the head`,
        ),
        fact(
          'planned with',
          [
            `${sitter.skin} skin`,
            `${sitter.hair} hair, ${hairCut}`,
            headwear === 'none' ? '' : headwear,
            `${sitter.clothes} clothes`,
            sitter.glasses ? 'glasses' : '',
          ]
            .filter(Boolean)
            .join(', '),
        ),
      ]),
    }
  })
}

function panelCards({ sitting }: SheetInput): readonly (Card | null)[] {
  const names = namesOf(sitting)
  return sitting.panels.map((panel) => ({
    title: `${capital(names.get(panel.id) ?? panelWords(panel))}, ${figure(panel.widthM, 2)} × ${figure(panel.heightM, 2)} m`,
    facts: some([
      fact('middle', [...lengthRuns(panel.centreM[1]), ' high']),
      fact('faces', `front turned ${round(((panel.turnDeg + 540) % 360) - 180)}`),
      Math.abs(panel.tiltDeg) < 0.5
        ? null
        : fact('tilt', `${angle(panel.tiltDeg)} ${panel.tiltDeg < 0 ? 'down' : 'up'}`),
      (panel.foldDeg ?? 0) > 0 ? fact('folded', `${angle(panel.foldDeg ?? 0)} to the front`) : null,
      panel.back && panel.back !== panel.kind ? fact('back', panel.back) : null,
    ]),
  }))
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function backdropCard(input: SheetInput): Card | null {
  const { backdrop } = input.sitting
  if (!backdrop) return null
  const mean = backdrop.reflectance.reduce((sum, share) => sum + share, 0) / 3
  const tone = readingOf(input, 'backdrop.tone.paper')
  const isGrey = backdrop.reflectance.every((share) => Math.abs(share - mean) < 0.005)
  return {
    title: 'Backdrop',
    facts: some([
      fact('paper', `${exactLength(backdrop.widthM)} wide, ${exactLength(backdrop.heightM)} high`),
      fact('behind X', exactLength(backdrop.distanceM)),
      fact(
        'tone',
        isGrey
          ? `${figure(100 * mean)} % grey`
          : `reflects ${backdrop.reflectance.map((share) => `${figure(100 * share)} %`).join(', ')} of red, green, blue`,
      ),
      typeof tone?.value === 'number' ? fact('records as', `${figure(tone.value)} of 255`) : null,
    ]),
  }
}

function roomCard(room: SheetInput['sitting']['room']): Card {
  const percent = (share: number) => `${figure(100 * share)} %`
  if (room.outdoors) return { title: 'Outdoors', facts: [fact('ground', `reflects ${percent(room.floorReflectance)}`)] }
  return {
    title: 'Room',
    facts: [
      fact('size', `${figure(room.widthM, 2)} wide, ${figure(room.depthM, 2)} long, ${figure(room.heightM, 2)} m high`),
      fact(
        'X stands',
        `${figure(room.widthM / 2 + room.xM, 2)} m from the wall at camera right, ${figure(room.depthM / 2 - room.zM, 2)} m from the one behind the backdrop`,
      ),
      fact(
        'tones',
        `walls ${percent(room.wallReflectance)}, ceiling ${percent(room.ceilingReflectance)}, floor ${percent(room.floorReflectance)}`,
      ),
    ],
  }
}
