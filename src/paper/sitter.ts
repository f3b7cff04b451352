import type { PartName, PosedFigure } from '../figure'
import { meterPoint, type RigSource } from '../rig'
import { addScaled } from '../space'
import { bandOutline, type Projection, planProjection } from './outline'
import { planeSection } from './section'
import { between, circle, lengthOf, line } from './shapes'
import type { DrawingInput, Point2, Shape } from './types'

const BAND_M = 0.006
const planCache = new WeakMap<PosedFigure, PlanOutlines>()

interface PlanOutlines {
  readonly heads: readonly Point2[][]
  readonly body: Point2[]
}

/** Head cut at the nose tip, shoulders under it, a short arrow for the nose. */
export function sitterInPlan(figure: PosedFigure, pencil: boolean): Shape[] {
  const outline = planCache.get(figure) ?? planOutlines(figure)
  planCache.set(figure, outline)
  const nose = planProjection(figure.landmarks.noseTip.position)
  const tip = planProjection(addScaled(figure.landmarks.noseTip.position, figure.noseDirection, 0.09))
  return [
    line(outline.body, { closed: true, weight: 'thin', fill: 'sheet', pencil }),
    ...outline.heads.map((head) => line(head, { closed: true, weight: 'object', fill: 'sheet', pencil })),
    line([nose, tip], { weight: 'object' }),
    ...arrowHead(nose, tip),
  ]
}

function arrowHead(from: Point2, to: Point2): Shape[] {
  const angle = Math.atan2(to[1] - from[1], to[0] - from[0])
  const barb = (turn: number): Point2 => [to[0] - 0.03 * Math.cos(angle + turn), to[1] - 0.03 * Math.sin(angle + turn)]
  return [line([barb(0.45), to, barb(-0.45)], { weight: 'object' })]
}

function planOutlines(figure: PosedFigure): PlanOutlines {
  const tip = figure.landmarks.noseTip.position
  const cut = figure.parts.filter(({ name }) => name === 'hair' || name === 'skin')
  return {
    heads: cut.flatMap(({ mesh }) => planeSection(mesh, tip, [0, 1, 0], planProjection).slice(0, 1)),
    body: bandOutline(collect(figure, ['garment'], planProjection), 0, 2 * BAND_M),
  }
}

/** The side seen along the drawing: profile of head and shoulders; seat and the body that is not modelled, hidden. */
export function sitterInElevation(figure: PosedFigure, project: Projection, pencil: boolean): Shape[] {
  const all = collect(figure, ['skin', 'hair', 'garment'], project)
  const outline = bandOutline(all, 1, BAND_M)
  return [
    ...seatedBody(figure, project, outline),
    line(outline, { closed: true, weight: 'object', fill: 'sheet', pencil }),
  ]
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

/** Vertices of the named parts on the plane of the drawing. */
function collect(figure: PosedFigure, names: readonly PartName[], project: Projection): Point2[] {
  const points: Point2[] = []
  for (const { name, mesh } of figure.parts) {
    if (!names.includes(name)) continue
    const p = mesh.positions
    for (let i = 0; i < p.length; i += 3) points.push(project([p[i], p[i + 1], p[i + 2]]))
  }
  return points
}

/** Where the meter is held: a small circle with a stem to where it is aimed. */
export function meterPlaces({ sitting, rig }: DrawingInput, chosen: RigSource | null, project: Projection): Shape[] {
  const light = chosen ?? rig.sources[0]
  return sitting.meterPlaces.flatMap((place) => {
    const { point } = meterPoint(place, rig)
    const aim = place.facing === 'lens' || !light ? rig.view.frame.origin : light.frame.origin
    const [a, b] = [project(point), project(aim)]
    const size = lengthOf(a, b)
    const stem = size > 0 ? [line([a, between(a, b, 0.1 / size)], { weight: 'thin' })] : []
    return [...stem, circle(a, 0.015, { weight: 'thin', fill: 'sheet' })]
  })
}
