import { type PosedFigure, sectionThrough } from '../figure'
import { noseGapM } from '../readings'
import type { RigSource } from '../rig'
import { cross, dot, normalize, subtract, type Vec3 } from '../space'
import { type Projection, planProjection } from './outline'
import { between, dimension, lengthOf, line } from './shapes'
import { rimEnds } from './source'
import type { Point2, Shape } from './types'

/** Where the edge is dimensioned when the cheek itself is turned away. Common practice, no source: 20 to 30 mm. */
const USUAL_GAP_M = 0.025
/** Clear of the penumbra. */
const ASIDE_M = 0.004
const MAGNIFICATION = 7.5
const RAY_BEFORE_M = 0.05
const RAY_PAST_M = 0.055

/**
 * The detail circle: the nose tip, both edge rays past it and the penumbra between them, enlarged, its width dimensioned as
 * far behind the tip as the reading counts it, and that gap beside it. It is drawn in the
 * plane of the light (the beam's direction and the source's level width), where the angle and the width are true, and
 * turned as the plan is.
 */
export function edgeDetail(source: RigSource, figure: PosedFigure, centre: Point2, radiusM: number): Shape[] {
  const tip = figure.landmarks.noseTip.position
  const plane = planeOfLight(source, tip)
  if (!plane) return []
  const nose = plane.project(tip)
  const rims = rimEnds(source, plane.project)
  const towards = plane.project(source.frame.origin)
  const away = lengthOf(towards, nose)
  const along: Point2 = [(nose[0] - towards[0]) / away, (nose[1] - towards[1]) / away]
  const gapM = noseGapM(figure, source) ?? USUAL_GAP_M
  const gap: Point2 = [nose[0] + along[0] * gapM, nose[1] + along[1] * gapM]
  const [a, b] = rims.map((rim) => whereRayCrosses(rim, nose, gap, along))
  const out = lengthOf(a, b) / 2 + ASIDE_M
  const beside = (p: Point2): Point2 => [p[0] - along[1] * out, p[1] + along[0] * out]
  const on = (rim: Point2, pastM: number): Point2 => between(rim, nose, 1 + pastM / lengthOf(rim, nose))
  return [
    line([planProjection(tip), centre], { weight: 'dimension' }),
    {
      kind: 'window',
      centre,
      radiusM,
      magnification: MAGNIFICATION,
      about: between(nose, gap, 0.5),
      shapes: [
        line([nose, on(rims[0], RAY_PAST_M), on(rims[1], RAY_PAST_M)], {
          closed: true,
          weight: 'dimension',
          fill: 'tint',
        }),
        ...sectionThrough(figure, { point: tip, normal: plane.normal }, ['skin']).map((loop) =>
          line(loop.map(plane.project), { closed: true, weight: 'object' }),
        ),
        ...rims.map((rim) => line([on(rim, -RAY_BEFORE_M), on(rim, RAY_PAST_M)], { weight: 'thin' })),
        ...dimension(a, b, `${millimetres(lengthOf(a, b))} mm`, true, MAGNIFICATION),
        ...dimension(beside(nose), beside(gap), `${millimetres(gapM)}`, false, MAGNIFICATION),
      ],
    },
  ]
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
