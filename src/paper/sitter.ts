import { type PosedFigure, sectionThrough, silhouette } from '../figure'
import { meterDirection, meterPoint } from '../rig'
import { addScaled, type Vec3 } from '../space'
import { type Projection, planProjection } from './outline'
import { circle, lengthOf, line } from './shapes'
import type { Bounds, DrawingInput, Handle, Point2, Shape } from './types'

/** Shapes of a figure not in hand, and in hand: kept, so that a view of them is, too. */
const planShapes = [new WeakMap<PosedFigure, Shape[]>(), new WeakMap<PosedFigure, Shape[]>()]

/** Head cut at the nose tip, shoulders under it, a short arrow for the nose. */
export function sitterInPlan(figure: PosedFigure, pencil: boolean): Shape[] {
  const kept = planShapes[Number(pencil)]
  const shapes = kept.get(figure) ?? drawInPlan(figure, pencil)
  kept.set(figure, shapes)
  return shapes
}

function drawInPlan(figure: PosedFigure, pencil: boolean): Shape[] {
  const outline = planOutlines(figure)
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

function planOutlines(figure: PosedFigure): { readonly heads: readonly Point2[][]; readonly body: Point2[] } {
  const level = { point: figure.landmarks.noseTip.position, normal: [0, 1, 0] as Vec3 }
  // The longest loop of each is the head; shorter ones are nostrils and the inner side of the hair.
  const longest = (name: 'hair' | 'skin' | 'headwear') =>
    sectionThrough(figure, level, [name])
      .sort((a, b) => b.length - a.length)
      .slice(0, 1)
  return {
    heads: [...longest('skin'), ...longest('hair'), ...longest('headwear')].map((loop) => loop.map(planProjection)),
    // Left to right as the levels go, so the shoulders' front and back are what is found across.
    body: silhouette(figure, [0, 0, 1], [1, 0, 0], { parts: ['garment'] }).map(([z, x]) => [x, z]),
  }
}

/** The side seen along the drawing: profile of head and shoulders; seat and the body that is not modelled, hidden. */
export function sitterInElevation(figure: PosedFigure, across: Vec3, project: Projection, pencil: boolean): Shape[] {
  const outline = silhouette(figure, across, [0, 1, 0]).map(([x, height]): Point2 => [x, -height])
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

/**
 * Where the meter is held, as far as the drawing reaches: a small circle with a stem to where it is aimed; a spot is a circle
 * with a dot and no stem.
 */
export function meterPlaces(
  { sitting, rig, selected }: DrawingInput,
  project: Projection,
  { minX, maxX, minY, maxY }: Bounds,
): Shape[] {
  return sitting.meterPlaces.flatMap((place) => {
    const { point } = meterPoint(place, rig)
    const a = project(point)
    if (a[0] < minX || a[0] > maxX || a[1] < minY || a[1] > maxY) return []
    const pencil = place.id === selected
    const weight = pencil ? 'object' : 'thin'
    const body = circle(a, METER_RADIUS_M, { weight, pencil, fill: 'sheet' })
    if (place.receptor === 'spot') return [body, circle(a, METER_RADIUS_M / 4, { weight, pencil })]
    const b = project(addScaled(point, meterDirection(place, rig), STEM_M))
    return [...(lengthOf(a, b) > METER_RADIUS_M ? [line([a, b], { weight, pencil })] : []), body]
  })
}

const METER_RADIUS_M = 0.015
const STEM_M = 0.1

/** Handles of the meters that can be moved by hand: in free air, and the one that is selected. */
export const meterHandles = ({ sitting, rig, selected }: DrawingInput, project: Projection): Handle[] =>
  sitting.meterPlaces
    .filter(({ at, id }) => 'pointM' in at || id === selected)
    .map((place) => ({
      target: { type: 'meter', id: place.id },
      at: project(meterPoint(place, rig).point),
      name: `meter, ${place.name}`,
      reachM: 0.04,
    }))
