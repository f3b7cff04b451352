import { viewTangent } from '../camera'
import type { Rig, Surface, View } from '../rig'
import type { Sitting } from '../sitting'
import { add, addScaled, cross, scale, subtract, type Vec3 } from '../space'
import { convexHull, type Projection } from './outline'
import { between, circle, hatchBehind, lengthOf, line, text } from './shapes'
import { solidOutline } from './solids'
import type { Bounds, DrawingInput, Point2, Shape } from './types'
import { sizeLabel } from './words'

const PANEL_THICKNESS_M = 0.02

/** A board: two lines at true thickness, its kind and size along it. */
export function drawPanel(
  surface: Surface,
  label: string,
  project: Projection,
  pencil: boolean,
  fill: 'sheet' | 'none' = 'sheet',
): Shape[] {
  const { centre, halfU, halfV } = surface.rect
  const normal = scale(cross(halfU, halfV), 1 / Math.max(1e-9, Math.hypot(...cross(halfU, halfV))))
  const front = cornersOf(surface).map(project)
  const back = cornersOf(surface).map((p) => project(addScaled(p, normal, -PANEL_THICKNESS_M)))
  const outline = convexHull([...front, ...back])
  const at = project(addScaled(centre, normal, -PANEL_THICKNESS_M))
  const along = project(add(centre, halfU))
  const middle = project(centre)
  const angle = readable((Math.atan2(along[1] - middle[1], along[0] - middle[0]) * 180) / Math.PI)
  // Behind the board, whichever way it stands: over the base line of the words, or under it.
  const [upX, upY] = [Math.sin((angle * Math.PI) / 180), -Math.cos((angle * Math.PI) / 180)]
  const under = (at[0] - middle[0]) * upX + (at[1] - middle[1]) * upY < 0
  return [
    line(outline, { closed: true, weight: 'object', fill, pencil }),
    text(at, label, {
      anchor: 'middle',
      angleDeg: angle,
      tone: pencil ? 'pencil' : 'ink2',
      stands: under ? 'under' : 'over',
      ...(label ? { short: label.split(' ')[0]! } : {}),
    }),
  ]
}

export const cornersOf = ({ rect }: Surface): Vec3[] => [
  add(add(rect.centre, rect.halfU), rect.halfV),
  subtract(add(rect.centre, rect.halfU), rect.halfV),
  subtract(subtract(rect.centre, rect.halfU), rect.halfV),
  add(subtract(rect.centre, rect.halfU), rect.halfV),
]

function readable(angle: number): number {
  let turned = angle
  while (turned >= 90) turned -= 180
  while (turned < -90) turned += 180
  return turned
}

/** The backdrop in plan: a cut line with hatch behind it, its width and reflectance written. */
export function backdropInPlan({ sitting, units, selected }: DrawingInput, { minX }: Bounds): Shape[] {
  const { backdrop } = sitting
  if (!backdrop) return []
  const a: Point2 = [-backdrop.widthM / 2, -backdrop.distanceM]
  const b: Point2 = [backdrop.widthM / 2, -backdrop.distanceM]
  const pencil = selected === 'backdrop'
  const tone = toneWords(backdrop.reflectance)
  return [
    ...hatchBehind(a, b, 0.05, -0.05, 0.09),
    line([a, b], { weight: 'cut', pencil }),
    text([Math.max(a[0], minX + 0.02), a[1]], `paper ${sizeLabel(backdrop.widthM, units)}, ${tone}`, {
      tone: pencil ? 'pencil' : 'ink2',
      stands: 'under',
      short: `paper, ${tone}`,
    }),
  ]
}

/** '60 %' of a grey paper; of another one number would be none. */
const toneWords = ([red, green, blue]: Vec3): string =>
  Math.max(red, green, blue) - Math.min(red, green, blue) < 0.005 ? `${Math.round(green * 100)} %` : 'coloured'

export function backdropInElevation(sitting: Sitting, project: Projection): Shape[] {
  const { backdrop } = sitting
  if (!backdrop) return []
  const corners: Vec3[] = [-1, 1].flatMap((side): Vec3[] => [
    [(side * backdrop.widthM) / 2, 0, -backdrop.distanceM],
    [(side * backdrop.widthM) / 2, backdrop.heightM, -backdrop.distanceM],
  ])
  return [line(convexHull(corners.map(project)), { closed: true, weight: 'thin' })]
}

const WALL_M = 0.06

const walls = new WeakMap<Sitting['room'], Shape[]>()

/** Walls as double lines with hatch between them; the drawing is cut off by its own bounds. Kept with the room; outdoors there are none. */
export function wallsInPlan({ room }: Sitting): Shape[] {
  const shapes = walls.get(room) ?? drawWalls(room)
  walls.set(room, shapes)
  return shapes
}

function drawWalls(room: Sitting['room']): Shape[] {
  if (room.outdoors) return []
  const x0 = room.xM - room.widthM / 2
  const x1 = room.xM + room.widthM / 2
  const z0 = room.zM - room.depthM / 2
  const z1 = room.zM + room.depthM / 2
  const ring = (grow: number): Point2[] => [
    [x0 - grow, z0 - grow],
    [x1 + grow, z0 - grow],
    [x1 + grow, z1 + grow],
    [x0 - grow, z1 + grow],
  ]
  return [
    line(ring(0), { closed: true, weight: 'thin' }),
    line(ring(WALL_M), { closed: true, weight: 'thin' }),
    line(wallHatch(ring(0)), { closed: true, weight: 'dimension' }),
  ]
}

const WALL_HATCH_M = 0.12

/**
 * Strokes at 45° of the page from the inner line of the walls to the outer one, all of one slope. One line without a gap:
 * it goes along the inner line, which is drawn anyhow, from stroke to stroke, so that a room is no hundreds of shapes.
 */
function wallHatch(inner: readonly Point2[]): Point2[] {
  return inner.flatMap((from, side) => {
    const to = inner[(side + 1) % inner.length]
    // The ring begins at the far left corner and goes to the right: the first two sides lie outwards up and right.
    const out = side < 2 ? WALL_M : -WALL_M
    const count = Math.max(1, Math.round(lengthOf(from, to) / WALL_HATCH_M))
    return Array.from({ length: count }, (_, i) => between(from, to, (i + 0.5) / count)).flatMap((at): Point2[] => [
      at,
      [at[0] + out, at[1] - out],
      at,
    ])
  })
}

/** Camera body and barrel to size, tripod circle, field edges to where the field meets the backdrop. */
export function cameraShapes(
  view: View,
  fieldTo: number,
  project: Projection,
  pencil: boolean,
  plan: boolean,
): Shape[] {
  const { origin, z, x, y } = view.frame
  const across = plan ? x : y
  const box = (near: number, far: number, half: number): Point2[] =>
    [
      addScaled(addScaled(origin, z, near), across, -half),
      addScaled(addScaled(origin, z, far), across, -half),
      addScaled(addScaled(origin, z, far), across, half),
      addScaled(addScaled(origin, z, near), across, half),
    ].map(project)
  const half = viewTangent(plan ? view.sensorWidthMm : view.sensorHeightMm, view.focalLengthMm)
  const edge = (side: number): Shape => {
    const end = addScaled(addScaled(origin, z, fieldTo), across, side * half * fieldTo)
    return line([project(origin), project(end)], { weight: 'dimension' })
  }
  return [
    edge(-1),
    edge(1),
    ...(plan ? tripod(view, project) : []),
    line(box(-0.12, -0.05, 0.07), { closed: true, fill: 'sheet', pencil }),
    line(box(-0.05, 0.05, 0.04), { closed: true, fill: 'sheet', pencil }),
  ]
}

/** Radius of a tripod's feet: common practice, no source. */
export const TRIPOD_M = 0.4

/** So far from its place the name of the lens may go where a line runs through it; where none of that is clear it is left out, as the camera's controls have it. */
const LENS_SLIDES_M = 0.1

/** Circle of the feet, and the lens named beside the body: words end at the circle, so that they stand clear of it. */
function tripod({ frame, focalLengthMm }: View, project: Projection): Shape[] {
  const middle = project(addScaled(frame.origin, frame.z, -0.1))
  const [x, y] = [middle[0] + TRIPOD_M + 0.05, middle[1] - 0.12]
  return [
    circle(middle, TRIPOD_M, { weight: 'dimension', dash: 'hidden' }),
    text([x, y], `${Math.round(focalLengthMm)} mm`, {
      tone: 'ink2',
      spare: true,
      along: [
        [x - LENS_SLIDES_M, y],
        [x + LENS_SLIDES_M, y],
      ],
    }),
  ]
}

/** Balls, cards and flags. */
export function objectShapes(rig: Rig, project: Projection, selected: string | null): Shape[] {
  const balls = rig.balls.map((ball) =>
    circle(project(ball.centre), ball.radiusM, { fill: 'sheet', pencil: selected === ball.id }),
  )
  const cards = rig.surfaces
    .filter((surface) => surface.kind === 'card' || surface.kind === 'flag')
    .map((surface) =>
      line(solidOutline({ kind: 'rectangle', rect: surface.rect, albedo: [0, 0, 0] }, project), {
        closed: true,
        weight: surface.kind === 'flag' ? 'cut' : 'object',
        pencil: selected !== null && surface.id.startsWith(selected),
      }),
    )
  return [...balls, ...cards]
}
