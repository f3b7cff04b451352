import type { PosedFigure } from '../figure'
import type { RigSource } from '../rig'
import { planProjection } from './outline'
import { levelSection } from './section'
import { between, dimension, lengthOf, line } from './shapes'
import { rimEnds } from './source'
import type { Point2, Shape } from './types'

/** Where the edge is dimensioned: a cheek about this far behind the nose tip. trade.md practice: 20 to 30 mm. */
const GAP_M = 0.025
const MAGNIFICATION = 7.5

/** The detail circle: the nose tip, both edge rays past it and the penumbra between them, enlarged in place. */
export function edgeDetail(source: RigSource, figure: PosedFigure, centre: Point2, radiusM: number): Shape[] {
  const level = figure.landmarks.noseTip.position[1]
  const skin = figure.parts.find(({ name }) => name === 'skin')
  const nose = planProjection(figure.landmarks.noseTip.position)
  const rims = rimEnds(source, planProjection)
  const middle = between(rims[0], rims[1], 0.5)
  const away = lengthOf(middle, nose)
  if (!(away > 0.05)) return []
  const along: Point2 = [(nose[0] - middle[0]) / away, (nose[1] - middle[1]) / away]
  const across: Point2 = [-along[1], along[0]]
  const gap: Point2 = [nose[0] + along[0] * GAP_M, nose[1] + along[1] * GAP_M]
  const [a, b] = rims.map((rim) => whereRayCrosses(rim, nose, gap, across))
  const tail = (rim: Point2): Point2 => between(rim, nose, 1 + 0.055 / lengthOf(rim, nose))
  const start = (rim: Point2): Point2 => between(rim, nose, 1 - 0.05 / lengthOf(rim, nose))
  return [
    line([nose, centre], { weight: 'dimension' }),
    {
      kind: 'window',
      centre,
      radiusM,
      magnification: MAGNIFICATION,
      about: between(nose, gap, 0.5),
      shapes: [
        ...(skin ? levelSection(skin.mesh, level) : []).map((loop) => line(loop, { closed: true, weight: 'object' })),
        line([nose, tail(rims[0]), tail(rims[1])], { closed: true, weight: 'dimension', fill: 'tint' }),
        ...rims.map((rim) => line([start(rim), tail(rim)], { weight: 'thin' })),
        ...dimension(a, b, `${Math.round(lengthOf(a, b) * 1000)} mm`, true, MAGNIFICATION),
      ],
    },
  ]
}

/** Where the ray from a rim past the nose crosses the line through `gap` along `across`. */
function whereRayCrosses(rim: Point2, nose: Point2, gap: Point2, across: Point2): Point2 {
  const d: Point2 = [nose[0] - rim[0], nose[1] - rim[1]]
  const normal: Point2 = [across[1], -across[0]]
  const t = ((gap[0] - nose[0]) * normal[0] + (gap[1] - nose[1]) * normal[1]) / (d[0] * normal[0] + d[1] * normal[1])
  return [nose[0] + d[0] * t, nose[1] + d[1] * t]
}
