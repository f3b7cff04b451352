import { elevationAngle } from '../camera'
import { stopsBetween } from '../photometry'
import type { RigSource } from '../rig'
import { addScaled, degrees, normalize, radians, rotateAbout, subtract, type Vec3 } from '../space'
import { sumOf } from './light-table'
import { OFF_DEG, OFF_M } from './off'
import { absent, GEOMETRY, reading } from './reading'
import { nearCheekOf, type Stage, skinProbe, towardsLight } from './stage'
import type { Reading } from './types'
import { figure, shortPhrase, signed } from './words'

/**
 * What a hand's breadth, ten degrees or a taller sitter do to the main reading, by the key's direct light. The place is moved in the
 * light of the standing key, which comes to the same; that the face's own shadow moves too is left out.
 */
export function sensitivityReadings(stage: Stage): readonly Reading[] {
  const { key } = stage
  if (!key || key.remote) return []
  const { point } = towardsLight(stage, key)
  const way = normalize(subtract(key.frame.origin, point))
  const all = sumOf(stage.table.at('nearCheek.disc.light', towardsLight(stage, key), 'disc'))
  const here = toLight(stage, key, point)
  if (!(all > 0 && here > 0)) return []
  // Of the whole reading only the key's share changes.
  const change = (then: number): number =>
    Math.log2(Math.max(1e-9, 1 + (Math.min(here, all) / all) * (then / here - 1)))
  const by = (offset: Vec3, m: number) => change(toLight(stage, key, addScaled(point, offset, m)))
  return [
    nearer(stage, key, by(way, OFF_M), by(way, -OFF_M)),
    round(stage, key),
    taller(stage, key, by([0, 1, 0], OFF_M)),
  ]
}

/** Of the key alone at a point, disc to it, nothing in the way. */
const toLight = (stage: Stage, key: RigSource, point: Vec3): number =>
  stage.table.direct(key, { point, normal: normalize(subtract(key.frame.origin, point)) }, 'disc', false)

const SOURCE = 'closed form of the key, nothing in its way'

function nearer(stage: Stage, key: RigSource, plus: number, minus: number): Reading {
  const hand = shortPhrase(OFF_M, stage.units)
  return reading({
    id: 'sensitivity.distance',
    value: plus,
    unit: 'stop',
    text: signed(plus),
    place: { name: 'near cheek', at: skinProbe(stage, nearCheekOf(stage, key)).point },
    sentence: `if the sitter leans ${hand} towards ${key.letter}, ${signed(minus)} if ${hand} back.`,
    why: { formula: 'log₂(H moved / H)', filled: `${signed(plus, 2)}, ${signed(minus, 2)}`, source: SOURCE },
    sourceId: key.id,
  })
}

/** The head turned, or the key taken round: the light on the near cheek's own skin. */
function round(stage: Stage, key: RigSource): Reading {
  const { point, normal } = skinProbe(stage, nearCheekOf(stage, key))
  const on = (deg: number): number =>
    stage.table.direct(key, { point, normal: rotateAbout(normal, [0, 1, 0], radians(deg)) }, 'disc', false)
  const here = on(0)
  const turned = [on(OFF_DEG), on(-OFF_DEG)]
  const formula = 'log₂(cos moved / cos), over the face of the key'
  const place = { name: 'near cheek', at: point }
  if (!(here > 0 && Math.min(...turned) > 0))
    return absent({
      id: 'sensitivity.turn',
      place,
      formula,
      source: SOURCE,
      sentence: `${key.letter} only grazes the near cheek, or not even that: ten degrees decide whether it is lit.`,
      sourceId: key.id,
    })
  const [a, b] = turned.map((h) => stopsBetween(here, h))
  const worst = Math.abs(a) > Math.abs(b) ? a : b
  return reading({
    id: 'sensitivity.turn',
    value: worst,
    unit: 'stop',
    text: signed(worst),
    place,
    sentence: `on the near cheek's skin if the head turns ${OFF_DEG}° one way, ${signed(worst === a ? b : a)} the other; a disc to the light hardly changes, the pattern does.`,
    why: {
      formula,
      filled: `${signed(a, 2)}, ${signed(b, 2)}`,
      source: SOURCE,
    },
    sourceId: key.id,
  })
}

function taller(stage: Stage, key: RigSource, stops: number): Reading {
  const { eyePoint } = stage.marks
  const up = (eye: Vec3): number => {
    const out = subtract(key.frame.origin, eye)
    return degrees(elevationAngle(out[1], Math.hypot(out[0], out[2])))
  }
  const [now, then] = [up(eyePoint), up(addScaled(eyePoint, [0, 1, 0], OFF_M))]
  return reading({
    id: 'sensitivity.taller',
    value: then - now,
    unit: '°',
    text: figure(then - now),
    place: { name: 'eye line', at: eyePoint },
    sentence: `is how ${key.letter}'s angle over the eyes changes with a sitter ${shortPhrase(OFF_M, stage.units)} taller, ${figure(now)}° to ${figure(then)}°, and ${signed(stops)} stop: raise it as much.`,
    why: {
      formula: 'atan(rise − 0.1 m, level) − atan(rise, level)',
      filled: `${figure(then, 1)}° − ${figure(now, 1)}°`,
      source: GEOMETRY,
    },
    sourceId: key.id,
  })
}
