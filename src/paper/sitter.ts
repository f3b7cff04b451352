import type { PartName, PosedFigure } from '../figure'
import { addScaled, type Vec3 } from '../space'
import { bandOutline, type Projection, planProjection } from './outline'
import { circle, line } from './shapes'
import type { Point2, Shape } from './types'

const SECTION_HALF_M = 0.006
const BAND_M = 0.006
const planCache = new WeakMap<PosedFigure, { head: Point2[]; body: Point2[] }>()

/** Head cut at the nose tip, shoulders under it, a short arrow for the nose. */
export function sitterInPlan(figure: PosedFigure): Shape[] {
  const outline = planCache.get(figure) ?? planOutlines(figure)
  planCache.set(figure, outline)
  const nose = planProjection(figure.landmarks.noseTip.position)
  const tip = planProjection(addScaled(figure.landmarks.noseTip.position, figure.noseDirection, 0.09))
  return [
    line(outline.body, { closed: true, weight: 'thin', fill: 'sheet' }),
    line(outline.head, { closed: true, weight: 'object', fill: 'sheet' }),
    line([nose, tip], { weight: 'object' }),
    ...arrowHead(nose, tip),
  ]
}

function arrowHead(from: Point2, to: Point2): Shape[] {
  const angle = Math.atan2(to[1] - from[1], to[0] - from[0])
  const barb = (turn: number): Point2 => [to[0] - 0.03 * Math.cos(angle + turn), to[1] - 0.03 * Math.sin(angle + turn)]
  return [line([barb(0.45), to, barb(-0.45)], { weight: 'object' })]
}

function planOutlines(figure: PosedFigure): { head: Point2[]; body: Point2[] } {
  const level = figure.landmarks.noseTip.position[1]
  const atNose = collect(figure, ['skin', 'hair'], planProjection, (y) => Math.abs(y - level) < SECTION_HALF_M)
  return {
    head: bandOutline(atNose, 1, BAND_M),
    body: bandOutline(collect(figure, ['garment'], planProjection), 0, 2 * BAND_M),
  }
}

/** The side seen along the drawing: profile of head and shoulders; seat and the body that is not modelled, hidden. */
export function sitterInElevation(figure: PosedFigure, project: Projection): Shape[] {
  const all = collect(figure, ['skin', 'hair', 'garment'], project)
  const outline = bandOutline(all, 1, BAND_M)
  return [...seatedBody(figure, project, outline), line(outline, { closed: true, weight: 'object', fill: 'sheet' })]
}

function seatedBody(figure: PosedFigure, project: Projection, outline: readonly Point2[]): Shape[] {
  const bottom = Math.max(...outline.map((p) => p[1]))
  const seatHeight = 0.45
  if (-bottom <= seatHeight) return []
  const pivot = project(figure.landmarks.sternalNotch.position)[0]
  const half = 0.13
  return [
    line(
      [
        [pivot - half, bottom],
        [pivot - half, -seatHeight],
        [pivot + half, -seatHeight],
        [pivot + half, bottom],
      ],
      {
        weight: 'thin',
        dash: 'hidden',
      },
    ),
    line(
      [
        [pivot - 0.2, -seatHeight],
        [pivot + 0.2, -seatHeight],
        [pivot + 0.2, 0],
        [pivot - 0.2, 0],
      ],
      {
        weight: 'thin',
        dash: 'hidden',
        closed: true,
      },
    ),
  ]
}

/** Vertices of the named parts on the plane of the drawing, those kept whose height passes. */
export function collect(
  figure: PosedFigure,
  names: readonly PartName[],
  project: Projection,
  keep: (y: number) => boolean = () => true,
): Point2[] {
  const points: Point2[] = []
  for (const { name, mesh } of figure.parts) {
    if (!names.includes(name)) continue
    const p = mesh.positions
    for (let i = 0; i < p.length; i += 3) if (keep(p[i + 1])) points.push(project([p[i], p[i + 1], p[i + 2]]))
  }
  return points
}

/** A place where a meter was held: a small circle with a stem to where it is aimed. */
export function meterMark(at: Vec3, towards: Vec3, project: Projection): Shape[] {
  const a = project(at)
  const b = project(towards)
  const size = Math.hypot(b[0] - a[0], b[1] - a[1])
  const stem: Point2[] =
    size > 0 ? [a, [a[0] + ((b[0] - a[0]) / size) * 0.1, a[1] + ((b[1] - a[1]) / size) * 0.1]] : [a]
  return [line(stem, { weight: 'thin' }), circle(a, 0.015, { weight: 'thin', fill: 'sheet' })]
}
