import type { RigSource } from '../rig'
import { addScaled, degrees, distance, dot, pointToLocal, pointToWorld, radians, subtract, type Vec3 } from '../space'
import { sightBand } from './bands'
import { EYES, type Eye, eyeName } from './catchlights'
import { litPoints } from './lit-points'
import { absent, PRACTICE, reading } from './reading'
import type { Stage } from './stage'
import type { Caution, Reading } from './types'
import { figure, shortPhrase, signed } from './words'

/**
 * The lens sees the lit back of the eye when the light comes from nearly where it stands. No published threshold is
 * established; common practice, no source: red under 2.5°, seldom between, never from 5° on. Pupils wide open.
 */
const RED_DEG = 2.5
const CLEAR_DEG = 5

interface RedEye {
  readonly eye: Eye
  readonly pupil: Vec3
  /** At the pupil, from the lens to the nearest place of the lit face. */
  readonly angleDeg: number
  /** Of the lit face that stands nearer to the lens than CLEAR_DEG. */
  readonly share: number
}

/** The eye that comes nearest to red; null where neither turns to the lens and the front of the source. */
function redEyeOf({ figure: { posed }, scene }: Stage, source: RigSource): RedEye | null {
  const lens = scene.rig.view.frame.origin
  const { origin, z } = source.frame
  const found = EYES.flatMap((eye): RedEye[] => {
    const { position: pupil, normal: sight } = posed.landmarks[`pupil${eye}`]
    const lookedAt = [origin, lens].every((place) => dot(sight, subtract(place, pupil)) > 0)
    if (!lookedAt || dot(z, subtract(pupil, origin)) <= 0) return []
    const angles = litPoints(source).map((point) => angleAt(pupil, lens, point))
    const near = angles.filter((angle) => angle < CLEAR_DEG).length
    const nearest = angleAt(pupil, lens, nearestTo(source, pupil, lens))
    return [{ eye, pupil, angleDeg: Math.min(nearest, ...angles), share: near / angles.length }]
  })
  return found.reduce<RedEye | null>((worst, one) => (worst && worst.angleDeg <= one.angleDeg ? worst : one), null)
}

/** Where the lit face comes nearest to the line from the pupil to the lens, or to its end behind a face that stands before it. */
function nearestTo({ frame, litFace: { shape, widthM, heightM } }: RigSource, pupil: Vec3, lens: Vec3): Vec3 {
  const out = subtract(lens, pupil)
  const along = dot(frame.z, out)
  const t = Math.abs(along) > 1e-9 ? dot(frame.z, subtract(frame.origin, pupil)) / along : 1
  const [x, y] = pointToLocal(frame, addScaled(pupil, out, t > 0 ? t : 1))
  if (shape === 'disc') {
    const inside = Math.min(1, widthM / 2 / Math.max(1e-9, Math.hypot(x, y)))
    return pointToWorld(frame, [x * inside, y * inside, 0])
  }
  const within = (value: number, half: number) => Math.max(-half, Math.min(half, value))
  return pointToWorld(frame, [within(x, widthM / 2), within(y, heightM / 2), 0])
}

const angleAt = (from: Vec3, a: Vec3, b: Vec3): number => {
  const [u, v] = [subtract(a, from), subtract(b, from)]
  return degrees(Math.acos(Math.min(1, dot(u, v) / Math.hypot(...u) / Math.hypot(...v))))
}

/** How far a source keeps from red eye: degrees between it and the lens, less those under which pupils turn red. */
export function redEyeReading(stage: Stage, source: RigSource): Reading {
  const { letter, id: sourceId } = source
  const id = `source.${letter}.redEye`
  const formula = `angle at the pupil between lens and lit face − ${figure(RED_DEG, 1)}°`
  const eyes = { name: 'eyes', at: stage.figure.posed.eyeMidpoint }
  const found = redEyeOf(stage, source)
  if (!found) {
    const sentence = `${letter} does not shine into the eyes: no red eye from it.`
    return absent({ id, place: eyes, formula, source: PRACTICE, sourceId, sentence })
  }
  const { eye, pupil, angleDeg } = found
  const margin = angleDeg - RED_DEG
  return reading({
    id,
    value: margin,
    unit: '°',
    text: signed(margin),
    band: sightBand(distance(stage.scene.rig.view.frame.origin, pupil)),
    place: { name: eyeName(stage, eye), at: pupil },
    sentence: `${saying(found)}: ${letter} stands ${figure(angleDeg, 1)}° beside the lens as the ${eyeName(stage, eye)} sees them.`,
    why: { formula, filled: `${figure(angleDeg, 1)}° − ${figure(RED_DEG, 1)}°`, source: PRACTICE },
    sourceId,
  })
}

function saying({ angleDeg, share }: RedEye): string {
  if (angleDeg >= CLEAR_DEG) return 'clear of red eye'
  if (share < HALF) return 'near the lens with little of its face, no danger'
  return angleDeg >= RED_DEG ? 'from red eye, which wide pupils may still show' : 'too near the lens, pupils turn red'
}
const HALF = 0.5

/** Said where most of a source's face stands where pupils turn red. */
export function redEyeCaution(stage: Stage, source: RigSource): Caution | null {
  if (!source.on) return null
  const found = redEyeOf(stage, source)
  if (!found || found.angleDeg >= RED_DEG || found.share < HALF) return null
  const lens = stage.scene.rig.view.frame.origin
  const away = distance(lens, found.pupil) * Math.tan(radians(CLEAR_DEG))
  return {
    id: `caution.${source.letter}.redEye`,
    at: source.remote?.markM ?? source.frame.origin,
    sentence: `${source.letter} shines from beside the lens and pupils turn red: hold it ${shortPhrase(away, stage.units)} from the lens, or bounce it.`,
  }
}
