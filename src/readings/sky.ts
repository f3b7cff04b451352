import { directionThrough } from '../camera'
import { GULLSTRAND_CORNEA_RADIUS_M, overcastLuminance } from '../photometry'
import type { RigSource } from '../rig'
import { addScaled, basisAround, dot, normalize, scale, subtract, type Vec3 } from '../space'
import { spillBand } from './bands'
import { pastHood } from './hood'
import { GEOMETRY, reading } from './reading'
import { type Stage, towardsLens } from './stage'
import type { Reading } from './types'
import { figure } from './words'

/** Rays along each side of the frame, and across an iris. */
const SIDE = 16
/** Of the iris: general anatomy, 12 mm across. */
const IRIS_RADIUS_M = 0.006
/** Off the cornea, so that no ray meets the eye that it leaves. */
const OFF_M = 0.004

const isSky = ({ scene }: Stage, from: Vec3, way: Vec3): boolean => way[1] > 0 && !scene.caster.nearest(from, way)

/** Of a sky that is all round: what of it the frame shows, and how much of an eye mirrors it. */
export const skyReadings = (stage: Stage, source: RigSource): readonly Reading[] => [
  inFrame(stage, source),
  ...(['Left', 'Right'] as const).map((side) => inEye(stage, source, side)),
]

function inFrame(stage: Stage, source: RigSource): Reading {
  const { view } = stage.scene.rig
  const { origin } = view.frame
  const places = Array.from({ length: SIDE }, (_, i) => (2 * i + 1) / SIDE - 1)
  const ways = places.flatMap((y) => places.map((x) => directionThrough(x, y, view.frame, view)))
  const bare = ways.filter((way) => pastHood(view, addScaled(origin, way, 1)) > 0 && isSky(stage, origin, way))
  const share = bare.length / ways.length
  const mean = bare.reduce((sum, way) => sum + overcastLuminance(1, Math.asin(way[1])), 0) / Math.max(1, bare.length)
  const onFace = stage.table.direct(source, towardsLens(stage, source), 'disc') / source.axialIntensity
  const stops = bare.length > 0 && onFace > 0 ? Math.log2((Math.PI * mean) / onFace) : 0
  const words =
    bare.length === 0
      ? `of the frame is bare sky: none of ${source.letter} shines straight into the lens from there.`
      : `of the frame is ${source.letter}'s bare sky, ${figure(Math.abs(stops), 1)} stops ${stops < 0 ? 'under' : 'over'} a white held at the cheek towards the lens: it veils the blacks as a white backdrop does.`
  return reading({
    ...{ id: `source.${source.letter}.flare`, sourceId: source.id },
    ...{ value: 100 * share, unit: '%', text: figure(100 * share), band: spillBand(100 * share, '%') },
    place: { name: 'lens', at: origin },
    sentence: words,
    why: {
      formula: 'share of rays through the frame that meet nothing above the horizon',
      filled: `${bare.length} of ${ways.length}`,
      source: `${GEOMETRY}; CIE overcast sky`,
    },
  })
}

/** The cornea as a convex mirror: each place of the iris shows what lies in the mirrored way. */
function inEye(stage: Stage, source: RigSource, side: 'Left' | 'Right'): Reading {
  const { position, normal } = stage.figure.posed.landmarks[`pupil${side}`]
  const toLens = normalize(subtract(stage.scene.rig.view.frame.origin, position))
  const [x, y] = basisAround(toLens)
  const steps = Array.from({ length: SIDE }, (_, i) => (2 * i + 1) / SIDE - 1)
  const places = steps.flatMap((a) => steps.map((b) => [a, b] as const)).filter(([a, b]) => a * a + b * b < 1)
  const mirrored = places.filter(([a, b]) => {
    const [u, v] = [(a * IRIS_RADIUS_M) / GULLSTRAND_CORNEA_RADIUS_M, (b * IRIS_RADIUS_M) / GULLSTRAND_CORNEA_RADIUS_M]
    const across = addScaled(scale(x, u), y, v)
    const own = addScaled(across, toLens, Math.sqrt(1 - u * u - v * v))
    const way = addScaled(scale(own, 2 * dot(own, toLens)), toLens, -1)
    return isSky(stage, addScaled(position, normal, OFF_M), way)
  })
  const share = mirrored.length / places.length
  return reading({
    ...{ id: `source.${source.letter}.catchlight.${side.toLowerCase()}.share`, sourceId: source.id },
    ...{ value: 100 * share, unit: '%', text: figure(100 * share), band: spillBand(100 * share, '%') },
    place: { name: `eye at camera ${side === 'Left' ? 'right' : 'left'}`, at: position },
    sentence: `of the iris mirrors ${source.letter}'s sky in the eye at camera ${side === 'Left' ? 'right' : 'left'}: a broad soft catchlight over its upper part, brightest at the top, less what lids, brow and things hide.`,
    why: {
      formula: 'share of the iris whose mirrored way, off a cornea of 7.7 mm, ends in the sky',
      filled: `${mirrored.length} of ${places.length}`,
      source: GEOMETRY,
    },
  })
}
