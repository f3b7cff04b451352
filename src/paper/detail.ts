import { type CutPlane, type PosedFigure, sectionThrough } from '../figure'
import { noseEdge } from '../readings'
import type { RigSource } from '../rig'
import { cross, dot, subtract, type Vec3 } from '../space'
import { planProjection } from './outline'
import { between, dimensionLine, lengthOf, line, text } from './shapes'
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
/** How far beyond that place the words that name the cut may slide, as times its way from the middle. */
const SLIDES = 1.2
/** How far to either side a figure of the circle may slide where its line is short, as times the height of the text. */
const BESIDE = 4

/**
 * The detail circle: the nose tip, both edge rays past it and the penumbra between them, enlarged, its width dimensioned as
 * far behind the tip as the reading counts it, and that gap beside it. It is drawn in the reading's own plane, square across the
 * shadow's edge, and turned so that the beam runs as on the plan. None where the nose throws no shadow on the cheek.
 */
export function edgeDetail(source: RigSource, figure: PosedFigure, centre: Point2, radiusM: number): Shape[] {
  const edge = noseEdge(figure, source)
  const tip = figure.landmarks.noseTip.position
  const place = edge && placeInPlane(edge, tip)
  if (!edge || !place) return []
  const { axis, across: acrossEdge, gapM } = edge
  const nose = place(0, 0)
  const gap = place(-gapM, 0)
  const along: Point2 = [(gap[0] - nose[0]) / gapM, (gap[1] - nose[1]) / gapM]
  const rays = [edge.low, edge.high].map((slope) => (pastM: number) => place(-pastM, -pastM * slope))
  const [a, b] = rays.map((ray) => ray(gapM)) as [Point2, Point2]
  const widthM = lengthOf(a, b)
  const spanM = Math.max(LEAST_SPAN_M, gapM / 2 + 0.03, widthM / 2 + 0.025)
  const aside = widthM / 2 + ASIDE_M
  const across: Point2 = [-along[1], along[0]]
  const beside = (p: Point2): Point2 => [p[0] + across[0] * aside, p[1] + across[1] * aside]
  const about = between(nose, gap, 0.5)
  const textM = spanM * TEXT
  const figures = [
    beyond([a, b], along, `${millimetres(widthM)} mm`, textM, { tone: 'pencil' }),
    beyond([beside(nose), beside(gap)], across, `${millimetres(gapM)} mm`, textM, { short: millimetres(gapM) }),
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
        line([nose, ...rays.map((ray) => ray(RAY_PAST_M))], {
          closed: true,
          weight: 'dimension',
          fill: 'tint',
        }),
        line(
          headLoop(figure, { point: tip, normal: cross(axis, acrossEdge) }).map((p) => {
            const d = subtract(p, tip)
            return place(dot(d, axis), dot(d, acrossEdge))
          }),
          { closed: true, weight: 'object' },
        ),
        ...rays.map((ray) => line([ray(-RAY_BEFORE_M), ray(RAY_PAST_M)], { weight: 'thin' })),
        ...dimensionLine(a, b, spanM * 0.06, true),
        ...dimensionLine(beside(nose), beside(gap), spanM * 0.06, false),
        ...figures,
        cutName(about, spanM, figures),
      ],
    },
  ]
}

/** Which cut it is, above or below, where more room is: it runs square across the shadow's edge, as the reading does, and seldom level. */
function cutName(about: Point2, spanM: number, figures: readonly { readonly at: Point2 }[]): Shape {
  const [over, under] = [-CAPTION, CAPTION + 0.6 * TEXT].map((share): Point2 => [about[0], about[1] + share * spanM])
  const room = (p: Point2) => Math.min(...figures.map(({ at }) => Math.abs(at[1] - p[1])))
  return text(room(over) > room(under) ? over : under, 'square cut', {
    anchor: 'middle',
    tone: 'ink2',
    along: [between(about, over, SLIDES), between(about, under, SLIDES)],
    spare: true,
  })
}

/** The longest loop is the head; the nostrils, which the plane cuts too, would read as blots. */
const headLoop = (figure: PosedFigure, plane: CutPlane): readonly Vec3[] =>
  sectionThrough(figure, plane, ['skin']).reduce((long, loop) => (loop.length > long.length ? loop : long), [])

/** Level words beside a line, out from its middle by as much as keeps their rectangle off it; they slide along it. */
function beyond(
  [from, to]: readonly [Point2, Point2],
  out: Point2,
  words: string,
  textM: number,
  style: { readonly tone?: 'pencil'; readonly short?: string },
): Extract<Shape, { kind: 'text' }> {
  const half: Point2 = [(words.length * LETTER * textM) / 2, 0.38 * textM]
  const reach = Math.abs(out[0]) * half[0] + Math.abs(out[1]) * half[1] + 0.25 * textM
  const clear = ([x, y]: Point2): Point2 => [x + out[0] * reach, y + out[1] * reach + 0.34 * textM]
  const middle = clear(between(from, to, 0.5))
  const share = Math.max(0.5, (BESIDE * textM) / lengthOf(from, to))
  const along = [-share, share].map(
    (t): Point2 => [middle[0] + t * (to[0] - from[0]), middle[1] + t * (to[1] - from[1])],
  )
  return text(middle, words, { ...style, anchor: 'middle', along: [along[0]!, along[1]!] })
}

/** Tenths only where a whole millimetre would be much of it. */
const millimetres = (m: number): string => (1000 * m).toFixed(m < 0.005 ? 1 : 0)

/**
 * From metres along the beam and across the edge, from the nose tip, to the drawing. Of its two sides the cut is seen from the one that
 * leaves left and right as on the plan. null: the light comes straight down, and the plan has no direction for it.
 */
function placeInPlane(
  { axis, across }: { readonly axis: Vec3; readonly across: Vec3 },
  tip: Vec3,
): ((alongM: number, acrossM: number) => Point2) | null {
  const level = Math.hypot(axis[0], axis[2])
  if (level < STRAIGHT_DOWN) return null
  const [x, y] = [axis[0] / level, axis[2] / level]
  const side = across[2] * x - across[0] * y < 0 ? -1 : 1
  const [originX, originY] = planProjection(tip)
  return (u, v) => [originX + u * x - v * side * y, originY + u * y + v * side * x]
}

/** Level part of a unit vector. */
const STRAIGHT_DOWN = 0.05
