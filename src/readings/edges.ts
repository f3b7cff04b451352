import { type EdgeSpread, edgeSpread, type Probe, stretchOnSurface } from '../meter'
import { angularDiameter, penumbraWidth } from '../photometry'
import { type RigSource, shadowCheek } from '../rig'
import { addScaled, degrees, distance, dot, normalize, scale, subtract, type Vec3 } from '../space'
import { edgeBand } from './bands'
import { GRAZING } from './nose-gap'
import { absent, reading } from './reading'
import { depthReadings } from './shadow-depth'
import { HELD_OFF_M, type Stage, skinProbe } from './stage'
import type { Reading } from './types'
import { figure, softnessOfAll } from './words'

/**
 * The two shadow edges that are looked at: the nose's on the cheek, the chin's on the neck. Width and depth are two
 * readings: a larger source widens the edge, a paler room lifts the depth. The width is the one square to the light, which
 * the drawing's detail shows too: on grazing skin an edge is stretched tenfold and says nothing about the source.
 */
export const edgeReadings = (stage: Stage, source: RigSource): readonly Reading[] =>
  BLOCKERS.flatMap((blocker) => {
    const shadow = shadowOf(stage, source, blocker)
    return 'missing' in shadow
      ? PARTS.map((part) =>
          absent({
            id: `edge.${source.letter}.${blocker.id}.${part}`,
            place: { name: blocker.place, at: null },
            formula: WIDTH,
            source: 'similar triangles',
            sourceId: source.id,
            sentence: shadow.missing,
          }),
        )
      : [
          fullReading(source, blocker, shadow),
          tenToNinetyReading(source, blocker, shadow),
          ...depthReadings(stage, { source, blocker, probe: shadow.probe, hidden: hiddenShare(blocker, shadow) }),
        ]
  })

const PARTS = ['full', 'tenToNinety', 'depth', 'room'] as const
const WIDTH = 'w = W·b / a, square to the light; on the skin × √(1 + (n·across / n·along)²), n its normal'

interface Blocker {
  readonly id: 'nose' | 'chin'
  readonly edge: 'noseTip' | 'menton'
  readonly place: string
  readonly words: string
  readonly under: string
  /** Breadth, metres: means of women and men, NIOSH head-and-face survey 2003. */
  readonly breadthM: number
}
const BLOCKERS: readonly Blocker[] = [
  {
    id: 'nose',
    edge: 'noseTip',
    place: 'cheek below the nose',
    words: 'nose shadow on the cheek',
    under: 'under the nose',
    breadthM: 0.0368,
  },
  {
    id: 'chin',
    edge: 'menton',
    place: 'neck below the chin',
    words: 'chin shadow on the neck',
    under: 'under the chin',
    breadthM: 0.1162,
  },
]

interface Shadow {
  readonly probe: Probe
  readonly spread: EdgeSpread
  readonly gapM: number
  readonly stretch: number
  /** Full width on a surface that faces the source, metres. */
  readonly facingM: number
  readonly distanceM: number
}

const PAST_CHIN_M = 0.002
const LEAST_GAP_M = 0.01

function shadowOf(stage: Stage, source: RigSource, blocker: Blocker): Shadow | { readonly missing: string } {
  const { landmarks, noseDirection, headUp } = stage.figure.posed
  const edge = landmarks[blocker.edge].position
  const towards = normalize(subtract(source.frame.origin, edge))
  const { letter } = source
  if (dot(towards, noseDirection) <= 0)
    return { missing: `${letter} stands behind the face: the ${blocker.id} throws no shadow forward of it.` }
  if (blocker.id === 'chin' && dot(towards, headUp) <= 0)
    return { missing: `${letter} stands below the chin, so its shadow goes up, not onto the neck.` }
  const probe =
    blocker.id === 'chin' ? neckBelow(stage, towards) : skinProbe(stage, shadowCheek(stage.figure.posed, towards))
  if (!probe) return { missing: `the chin's shadow of ${letter} falls past the neck.` }
  const spread = edgeSpread(source, edge, noseDirection, stage.table.quality)
  if (!spread) return { missing: `${letter} shines straight along the nose: no edge falls aside.` }
  // To the skin: the receptor is held off it.
  const gapM = dot(subtract(edge, addScaled(probe.point, probe.normal, -HELD_OFF_M)), spread.axis)
  const cosine = dot(probe.normal, spread.axis)
  if (cosine < GRAZING || gapM <= 0)
    return { missing: `the ${blocker.place} is turned away from ${letter}: it lies in the face’s own shade.` }
  return {
    probe,
    spread,
    gapM,
    stretch: stretchOnSurface(spread, probe.normal),
    facingM: penumbraWidth(spread.full, 1, gapM),
    distanceM: distance(edge, source.frame.origin),
  }
}

/** Where the light that just passes the chin lands: on the neck, or on the clothes below it. */
function neckBelow({ scene, figure }: Stage, towards: Vec3): Probe | null {
  const { position, normal } = figure.posed.landmarks.menton
  const away = scale(towards, -1)
  const start = addScaled(position, normal, PAST_CHIN_M)
  const hit = scene.caster.nearest(start, away)
  const meaning = hit && scene.bodies.meanings[hit.bodyIndex]
  if (!hit || hit.fromBehind || meaning?.kind !== 'figure' || hit.distance < LEAST_GAP_M) return null
  return { point: addScaled(addScaled(start, away, hit.distance), hit.normal, HELD_OFF_M), normal: hit.normal }
}

/** From here on the skin's slant is told, and from there on it no longer is a width that anybody sees. */
const SLANTING = 1.1
const TURNED_AWAY = 3

/** How wide it is on the skin stands in the reading's why: a second width beside the first is taken for it. */
function skinWords({ stretch }: Shadow): string {
  if (stretch <= SLANTING) return ''
  return stretch > TURNED_AWAY
    ? '. The skin turns away there, so on it the edge runs out into the shade'
    : '. The skin slants there, so on it the edge is spread wider'
}

/** Tenths of a millimetre only where a whole one would be most of the edge. */
const fine = (millimetres: number): number => (millimetres < 5 ? 1 : 0)
const mm = (m: number): number => m * 1000
const hiddenShare = (blocker: Blocker, shadow: Shadow): number =>
  isFull(shadow, blocker) ? 1 : shadow.spread.hiddenBy(blocker.breadthM / shadow.gapM)
const isFull = (shadow: Shadow, { breadthM }: Blocker): boolean => shadow.facingM <= breadthM

/** share: of the full width, from 10 to 90 %; left out: all of it. */
function widthWhy({ spread, gapM, stretch, facingM, distanceM }: Shadow, formula: string, share?: number) {
  const full = mm(facingM)
  const width = share === undefined ? full : full * share
  const triangles = `${figure(spread.full * distanceM, 2)} m · ${figure(mm(gapM))} mm / ${figure(distanceM, 2)} m = ${figure(full, 1)} mm`
  const profile = share === undefined ? '' : `; × ${figure(share, 2)} of the profile = ${figure(width, 1)} mm`
  return {
    formula,
    filled: `${triangles}${profile} square to the light; × ${figure(stretch, 2)} = ${figure(width * stretch, 1)} mm on the skin`,
    source: 'similar triangles; profile from the luminance of the source as the edge sees it',
  }
}

function fullReading(source: RigSource, blocker: Blocker, shadow: Shadow): Reading {
  const width = mm(shadow.facingM)
  const apparent = degrees(angularDiameter(shadow.spread.full, 1))
  const common = {
    id: `edge.${source.letter}.${blocker.id}.full`,
    place: { name: blocker.place, at: shadow.probe.point },
    why: widthWhy(shadow, WIDTH),
    sourceId: source.id,
  }
  const shown = { unit: 'mm', text: figure(width, fine(width)), band: edgeBand(width), edgeDeg: apparent }
  if (!isFull(shadow, blocker))
    return reading({
      ...common,
      ...shown,
      value: 'no full shadow',
      edgeMm: width,
      sentence: `wide is the edge of the ${blocker.words}, wider than the ${blocker.id === 'nose' ? 'nose' : 'jaw'}: no full shadow is left ${blocker.under}.`,
    })
  return reading({
    ...common,
    ...shown,
    value: width,
    sentence: `wide is the edge of the ${blocker.words}, counted as on skin that faces the light: ${softnessOfAll(apparent)}, because ${source.letter} looks ${figure(apparent, apparent < 2 ? 1 : 0)}° wide from there${skinWords(shadow)}.`,
  })
}

function tenToNinetyReading(source: RigSource, blocker: Blocker, shadow: Shadow): Reading {
  const width = mm(shadow.spread.tenToNinety * shadow.gapM)
  const share = shadow.spread.tenToNinety / shadow.spread.full
  return reading({
    id: `edge.${source.letter}.${blocker.id}.tenToNinety`,
    value: width,
    unit: 'mm',
    text: figure(width, fine(width)),
    band: edgeBand(width),
    place: { name: blocker.place, at: shadow.probe.point },
    sentence: `from 10 to 90 % of the light: the part of the edge of the ${blocker.words} that the eye sees, ${figure(share, 2)} of its width${skinWords(shadow)}.`,
    why: widthWhy(
      shadow,
      'w₁₀₋₉₀ between the 10 % and 90 % points of the running sum of the source across the edge',
      share,
    ),
    sourceId: source.id,
  })
}
