import { type CutPlane, type PosedFigure, sectionThrough } from '../figure'
import { noseGapM } from '../readings'
import type { RigSource } from '../rig'
import { cross, dot, normalize, subtract, type Vec3 } from '../space'
import { type Projection, planProjection } from './outline'
import { between, dimensionLine, lengthOf, line, text } from './shapes'
import { rimEnds } from './source'
import type { Point2, Shape } from './types'

/** Clear of the penumbra. */
const ASIDE_M = 0.004
/** The least that the window shows to either side of its middle. */
const LEAST_SPAN_M = 0.05
const RAY_BEFORE_M = 0.05
const RAY_PAST_M = 0.055
/** Text of the page as a share of the window's radius, and a letter's mean width as a share of the text. */
const TEXT = 0.24
const LETTER = 0.49
/** Of the radius, from the middle to the words that name the cut: there the circle is still wide enough for them. */
const CAPTION = 0.62

/**
 * The detail circle: the nose tip, both edge rays past it and the penumbra between them, enlarged, its width dimensioned as
 * far behind the tip as the reading counts it, and that gap beside it. It is drawn in the plane of the light (the beam's
 * direction and the source's level width), where the angle and the width are true, and turned as the plan is. None where the
 * nose throws no shadow on the cheek.
 */
export function edgeDetail(source: RigSource, figure: PosedFigure, centre: Point2, radiusM: number): Shape[] {
  const tip = figure.landmarks.noseTip.position
  const plane = planeOfLight(source, tip)
  const gapM = noseGapM(figure, source)
  if (!plane || gapM === null) return []
  const nose = plane.project(tip)
  const rims = rimEnds(source, plane.project)
  const towards = plane.project(source.frame.origin)
  const away = lengthOf(towards, nose)
  const along: Point2 = [(nose[0] - towards[0]) / away, (nose[1] - towards[1]) / away]
  const gap: Point2 = [nose[0] + along[0] * gapM, nose[1] + along[1] * gapM]
  const [a, b] = rims.map((rim) => whereRayCrosses(rim, nose, gap, along))
  const widthM = lengthOf(a, b)
  const spanM = Math.max(LEAST_SPAN_M, gapM / 2 + 0.03, widthM / 2 + 0.025)
  const aside = widthM / 2 + ASIDE_M
  const across: Point2 = [-along[1], along[0]]
  const beside = (p: Point2): Point2 => [p[0] + across[0] * aside, p[1] + across[1] * aside]
  const on = (rim: Point2, pastM: number): Point2 => between(rim, nose, 1 + pastM / lengthOf(rim, nose))
  const label = (
    at: Point2,
    out: Point2,
    words: string,
    pencil: boolean,
    short = words,
  ): Extract<Shape, { kind: 'text' }> =>
    text(clearOf(at, out, words, spanM * TEXT), words, { anchor: 'middle', tone: pencil ? 'pencil' : 'ink', short })
  const about = between(nose, gap, 0.5)
  const figures = [
    label(gap, along, `${millimetres(widthM)} mm`, true),
    label(beside(about), across, `${millimetres(gapM)} mm`, false, millimetres(gapM)),
  ]
  return [
    {
      kind: 'window',
      from: planProjection(tip),
      centre,
      radiusM,
      spanM,
      about,
      shapes: [
        line([nose, on(rims[0], RAY_PAST_M), on(rims[1], RAY_PAST_M)], {
          closed: true,
          weight: 'dimension',
          fill: 'tint',
        }),
        line(headLoop(figure, { point: tip, normal: plane.normal }).map(plane.project), {
          closed: true,
          weight: 'object',
        }),
        ...rims.map((rim) => line([on(rim, -RAY_BEFORE_M), on(rim, RAY_PAST_M)], { weight: 'thin' })),
        ...dimensionLine(a, b, spanM * 0.06, true),
        ...dimensionLine(beside(nose), beside(gap), spanM * 0.06, false),
        ...figures,
        cutName(about, spanM, figures),
      ],
    },
  ]
}

/** Which cut the figure is of, above or below, where more room is: the reading's is square across the shadow, whichever way that runs. */
function cutName(about: Point2, spanM: number, figures: readonly { readonly at: Point2 }[]): Shape {
  const [over, under] = [-CAPTION, CAPTION + 0.6 * TEXT].map((share): Point2 => [about[0], about[1] + share * spanM])
  const room = (p: Point2) => Math.min(...figures.map(({ at }) => Math.abs(at[1] - p[1])))
  return text(room(over) > room(under) ? over : under, 'edge, level cut', {
    anchor: 'middle',
    tone: 'ink2',
    short: 'level cut',
  })
}

/** The longest loop is the head; the nostrils, which the plane of the light cuts too, would read as blots. */
const headLoop = (figure: PosedFigure, plane: CutPlane): readonly Vec3[] =>
  sectionThrough(figure, plane, ['skin']).reduce((long, loop) => (loop.length > long.length ? loop : long), [])

/** The base line's middle of level words beside a line: out from `at`, by as much as keeps their rectangle off it. */
function clearOf(at: Point2, out: Point2, words: string, textM: number): Point2 {
  const half: Point2 = [(words.length * LETTER * textM) / 2, 0.38 * textM]
  const reach = Math.abs(out[0]) * half[0] + Math.abs(out[1]) * half[1] + 0.25 * textM
  return [at[0] + out[0] * reach, at[1] + out[1] * reach + 0.34 * textM]
}

/** Tenths only where a whole millimetre would be much of it. */
const millimetres = (m: number): string => (1000 * m).toFixed(m < 0.005 ? 1 : 0)

interface LightPlane {
  readonly normal: Vec3
  readonly project: Projection
}

/** null: the source stands in the nose, or straight above it, and no level width crosses the beam. */
function planeOfLight(source: RigSource, tip: Vec3): LightPlane | null {
  const out = subtract(source.frame.origin, tip)
  const level = Math.hypot(out[0], out[2])
  if (level < 0.05) return null
  const beam = normalize(out)
  const across: Vec3 = [-out[2] / level, 0, out[0] / level]
  const beamOnPlan: Point2 = [out[0] / level, out[2] / level]
  const acrossOnPlan: Point2 = [across[0], across[2]]
  const origin = planProjection(tip)
  return {
    normal: cross(beam, across),
    project: (p) => {
      const d = subtract(p, tip)
      const [u, v] = [dot(d, beam), dot(d, across)]
      return [origin[0] + u * beamOnPlan[0] + v * acrossOnPlan[0], origin[1] + u * beamOnPlan[1] + v * acrossOnPlan[1]]
    },
  }
}

/** Where the ray from a rim past the nose crosses the line through `gap` square to `along`. */
function whereRayCrosses(rim: Point2, nose: Point2, gap: Point2, along: Point2): Point2 {
  const d: Point2 = [nose[0] - rim[0], nose[1] - rim[1]]
  const t = ((gap[0] - nose[0]) * along[0] + (gap[1] - nose[1]) * along[1]) / (d[0] * along[0] + d[1] * along[1])
  return [nose[0] + d[0] * t, nose[1] + d[1] * t]
}
