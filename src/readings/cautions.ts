import { modifierKind } from '../gear'
import type { BodyMeaning } from '../meter'
import { feetFromMetres } from '../photometry'
import { litFaceOutline, loadCentre, type RigSource, standingOf } from '../rig'
import { add, distance, dot, scale, subtract, type Vec3 } from '../space'
import { cameraCautions } from './camera'
import { flareCaution } from './flare'
import { hoodCaution } from './hood'
import { panelsInFrame, sourceInFrame } from './in-frame'
import { redEyeCaution } from './red-eye'
import { type Stage, whereabouts } from './stage'
import { boomWords, standLoad, standReach } from './stand'
import type { Caution } from './types'
import { dialOf, figure, lengthPhrase } from './words'

/** A reminder, not a certificate. All limits: common practice in the trade, no source. */
const BARE_FACE_M = 0.3
const EYES_M = 1
const OVERHEAD_M = 0.45
const CLOTH_M = 0.5
const LEGS_M = 0.5
const STOOL_M = 0.2
const CLEAR_M = 0.1
const DIAL_EASE = 0.05

/** The gravest first: what hurts, what falls over, what cannot be built or set, what spoils the picture. */
const OF_SOURCES = [
  bareNearEyes,
  overhead,
  nearCloth,
  standLoad,
  standReach,
  standClearance,
  outsideRoom,
  underCeiling,
  dialRange,
  sourceInFrame,
  flareCaution,
  redEyeCaution,
  farOff,
]

export const cautionsOf = (stage: Stage): readonly Caution[] => {
  const ofSources = OF_SOURCES.flatMap((check) => stage.scene.rig.sources.map((source) => check(stage, source)))
  return [
    ...ofSources,
    ...panelsInFrame(stage),
    backdropInRoom(stage),
    hoodCaution(stage),
    ...cameraCautions(stage),
    ...eyesOffLens(stage),
  ].filter((caution) => caution !== null)
}

/** Eyes that should be on the lens and cannot turn so far stop at the end of their range. */
const eyesOffLens = ({ sitting, scene }: Stage): readonly Caution[] =>
  sitting.sitters.flatMap(({ id, gaze }, i) => {
    const { posed } = scene.rig.figures[i]
    if (gaze !== 'camera' || posed.gaze.reached) return []
    const who = i === 0 ? 'The sitter' : `Sitter ${i + 1}`
    const sentence = `${who} cannot look at the lens with the head held so: the eyes stop ${figure(Math.abs(posed.gaze.acrossDeg))}° round and ${figure(Math.abs(posed.gaze.upDeg))}° ${posed.gaze.upDeg < 0 ? 'down' : 'up'}.`
    return [{ id: `caution.${id}.gaze`, at: posed.eyeMidpoint, sentence }]
  })

const isBare = ({ litFace }: RigSource): boolean => Math.max(litFace.widthM, litFace.heightM) < BARE_FACE_M
const caution = (kind: string, { letter }: RigSource, at: Vec3, sentence: string): Caution => ({
  id: `caution.${letter}.${kind}`,
  at,
  sentence,
})

function bareNearEyes({ figure: { posed }, units }: Stage, source: RigSource): Caution | null {
  const { origin, z } = source.frame
  const eyes = [posed.landmarks.pupilLeft.position, posed.landmarks.pupilRight.position]
  const near = Math.min(...eyes.map((eye) => distance(eye, origin)))
  const shinesThere =
    dot(z, subtract(posed.eyeMidpoint, origin)) > 0 && dot(posed.noseDirection, subtract(origin, posed.eyeMidpoint)) > 0
  if (!source.on || !isBare(source) || near >= EYES_M || !shinesThere) return null
  return caution(
    'eyes',
    source,
    origin,
    `${source.letter} is bare and ${lengthPhrase(near, units)} from the eyes: no bare flash nearer than ${units === 'metres' ? '1 m' : `${figure(feetFromMetres(EYES_M), 1)} ft`} to a face.`,
  )
}

const level = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[2] - b[2])

function overhead(stage: Stage, source: RigSource): Caution | null {
  const {
    figure: { posed },
    units,
  } = stage
  if (source.remote) return null
  const crown = posed.landmarks.crown.position
  const above = [source.frame.origin, loadCentre(source)].filter((p) => p[1] > crown[1] && level(p, crown) < OVERHEAD_M)
  if (above.length === 0) return null
  return caution(
    'overhead',
    source,
    above[0],
    `${source.letter} hangs over the sitter, ${lengthPhrase(above[0][1] - crown[1], units)} above the crown: ${boomWords(stage, source)}, bag it, and tie a safety line.`,
  )
}

function nearCloth({ scene, units }: Stage, source: RigSource): Caution | null {
  if (!source.on || !isBare(source)) return null
  const { origin, z } = source.frame
  const hit = scene.caster.nearest(origin, z, scene.bodies.gearOf.get(source.id))
  const meaning = hit && hit.distance < CLOTH_M ? scene.bodies.meanings[hit.bodyIndex] : null
  const near = meaning && scorched(meaning)
  if (!hit || !near) return null
  return caution(
    'heat',
    source,
    origin,
    `${source.letter}'s bare lamp is ${lengthPhrase(hit.distance, units)} from the ${near.what}: modelling lamps scorch ${near.stuff}.`,
  )
}

function scorched(meaning: BodyMeaning): { readonly what: string; readonly stuff: string } | null {
  if (meaning.kind === 'figure') return { what: 'sitter', stuff: 'hair and cloth, and burn skin' }
  const isCloth = meaning.kind === 'surface' && /backdrop|panel/.test(meaning.surface.kind)
  return isCloth ? { what: meaning.surface.kind, stuff: 'cloth and paper' } : null
}

/** How far a place on the floor stands within the walls, metres; less than nothing outside them; outdoors there are none. */
const withinWalls = ({ sitting: { room } }: Stage, x: number, z: number): number =>
  room.outdoors
    ? Number.POSITIVE_INFINITY
    : Math.min(room.widthM / 2 - Math.abs(x - room.xM), room.depthM / 2 - Math.abs(z - room.zM))

function outsideRoom(stage: Stage, source: RigSource): Caution | null {
  if (source.remote) return null
  const { origin } = source.frame
  const places = [...litFaceOutline(source), loadCentre(source)]
  const out = -Math.min(...places.map((p) => withinWalls(stage, p[0], p[2])))
  if (out <= 0) return null
  const whole = withinWalls(stage, origin[0], origin[2]) < 0
  return caution(
    'walls',
    source,
    origin,
    whole
      ? `${source.letter} stands outside the room, ${lengthPhrase(out, stage.units)} beyond the wall: bring it in, or widen the room.`
      : `${source.letter} reaches ${lengthPhrase(out, stage.units)} into the wall: move it in, or widen the room.`,
  )
}

/** A backdrop that hangs through a wall, or behind one. */
function backdropInRoom(stage: Stage): Caution | null {
  const { backdrop, room } = stage.sitting
  if (!backdrop || room.outdoors) return null
  const { widthM, distanceM } = backdrop
  const at: Vec3 = [0, stage.marks.eyePoint[1], -distanceM]
  const beyond = distanceM + room.zM - room.depthM / 2
  const aside = Math.max(...[-1, 1].map((side) => -withinSides(stage, (side * widthM) / 2)))
  const higher = backdrop.heightM - room.heightM
  const length = (m: number) => lengthPhrase(m, stage.units)
  const say = (kind: string, sentence: string): Caution => ({ id: `caution.backdrop.${kind}`, at, sentence })
  if (beyond > 0)
    return say('wall', `The backdrop hangs ${length(beyond)} behind the wall: hang it nearer, or deepen the room.`)
  if (aside > 0)
    return say('sides', `The backdrop runs ${length(aside)} into a side wall: take a narrower one, or widen the room.`)
  if (higher > 0) return say('ceiling', `The backdrop is ${length(higher)} taller than the room: hang a shorter one.`)
  return null
}

const withinSides = ({ sitting: { room } }: Stage, x: number): number => room.widthM / 2 - Math.abs(x - room.xM)

function standClearance(stage: Stage, source: RigSource): Caution | null {
  if (source.remote) return null
  const { units } = stage
  const { posed } = stage.figure
  const { foot } = standingOf(stage.sitting, stage.scene.rig.view, source)
  const { shoulderLeft, shoulderRight } = posed.landmarks
  const seat = scale(add(shoulderLeft.position, shoulderRight.position), 0.5)
  const sitter = level(foot, seat) - LEGS_M - STOOL_M
  const inside = withinWalls(stage, foot[0], foot[2])
  // Beyond the wall there is a caution for that already.
  const wall = inside < 0 ? Number.POSITIVE_INFINITY : inside - LEGS_M
  const gap = Math.min(sitter, wall)
  if (gap >= CLEAR_M) return null
  const what = sitter < wall ? 'the stool' : 'the wall'
  const sentence =
    gap > 0
      ? `${lengthPhrase(gap, units)} between ${source.letter}'s legs and ${what}: turn one leg outwards and bag it.`
      : `${source.letter}'s legs reach ${what}: turn two of them to either side and bag the third, or use a boom.`
  return caution('stand', source, [foot[0], 0, foot[2]], sentence)
}

function underCeiling({ sitting, units }: Stage, source: RigSource): Caution | null {
  if (source.remote) return null
  const top = litFaceOutline(source).reduce((high, p) => (p[1] > high[1] ? p : high))
  const over = top[1] - sitting.room.heightM
  if (over <= 0 || sitting.room.outdoors) return null
  return caution(
    'ceiling',
    source,
    top,
    `${source.letter}'s top edge is ${lengthPhrase(over, units)} above the ceiling: seat the sitter lower, or use a smaller modifier.`,
  )
}

/** Sun or sky behind walls, or the sun under the ground. */
function farOff(stage: Stage, source: RigSource): Caution | null {
  const { room } = stage.sitting
  const { remote, frame, letter, on } = source
  if (!remote || !on) return null
  const say = (kind: string, words: string) => caution(kind, source, whereabouts(stage, source), `${letter} ${words}`)
  if (remote.kind === 'far' && frame.z[1] > 0)
    return say('set', 'shines from below the level, where the ground is: raise its sign over its aim.')
  if (!room.outdoors) return say('indoors', 'is kept out by walls and ceiling: set the room to outdoors.')
  return null
}

function dialRange(stage: Stage, source: RigSource): Caution | null {
  const { sitting, exposure } = stage
  if (!source.on) return null
  const { head, modifier } = sitting.sources.find(({ id }) => id === source.id)!
  const has = modifierKind(modifier.kind).burnsOn ? 'it has' : `its ${head.energyJ} J`
  const dial = exposure.perSourceStops[source.id]
  const at = whereabouts(stage, source)
  if (dial > DIAL_EASE)
    return caution(
      'power',
      source,
      at,
      `${source.letter} would need ${figure(dial, 1)} stops more than ${has}: it cannot reach this exposure.`,
    )
  if (source.remote && dial < -DIAL_EASE)
    return caution(
      'power',
      source,
      at,
      `${source.letter} is ${figure(-dial, 1)} stops too strong for this exposure and has no dial: a shorter time, a smaller aperture or ND.`,
    )
  if (dial < head.lowestStops - DIAL_EASE)
    return caution(
      'power',
      source,
      at,
      `${source.letter} is too strong by ${figure(head.lowestStops - dial, 1)} stops even at ${dialOf(head, head.lowestStops)}: distance, ND or a smaller aperture.`,
    )
  return null
}
