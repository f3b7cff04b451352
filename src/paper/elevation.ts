import { litFaceOutline, placeLandmarks, type RigSource, standingOf } from '../rig'
import { placeOf, tapeEnd } from '../sitting'
import { addScaled, type Vec3 } from '../space'
import { boundsOf, elevationProjection, type Projection } from './outline'
import { extentOf, hasPlace, markOf, short } from './remote'
import { backdropInElevation, cameraShapes, cornersOf, drawPanel, objectShapes } from './set'
import { angleFigure, arc, between, dimensionLine, lengthOf, line, readableAngle, TICK_M, text } from './shapes'
import { meterHandles, meterPlaces, sitterInElevation } from './sitter'
import { drawSource, edgeRays, letterOf, rimEnds, standInElevation } from './source'
import type { Bounds, DrawingInput, Elevation, Handle, Point2, Shape } from './types'
import { degreesLabel, lengthLabel, namesOf } from './words'

/** The set from the side: square to the selected source, where its height angle and tape are true; else from camera left. */
export function drawElevation(input: DrawingInput): Elevation {
  const { rig, selected, sitting } = input
  const placed = rig.sources.filter(hasPlace)
  const chosen = placed.find((source) => source.id === selected) ?? null
  const [alongX, alongZ] = direction(chosen, input)
  const project = elevationProjection(alongX, alongZ)
  const bounds = elevationBounds(input, chosen, project)
  const figure = rig.figures[0]?.posed ?? null
  const others = chosen ? [] : placed
  const shapes: Shape[] = [
    line(
      [
        [bounds.minX, 0],
        [bounds.maxX, 0],
      ],
      { weight: 'cut' },
    ),
    ...(figure ? eyeLine(input, bounds, project) : []),
    ...(chosen ? [] : backdropInElevation(sitting, project)),
    ...(chosen
      ? []
      : cameraShapes(rig.view, Math.max(0.5, rig.view.frame.origin[2]), project, selected === 'camera', false)),
    ...rig.figures.flatMap(({ posed, id }) => sitterInElevation(posed, [alongX, 0, alongZ], project, id === selected)),
    ...(chosen ? [] : panels(input, project)),
    ...objectShapes(rig, project, selected),
    ...others.flatMap((source) => oneSource(input, source, project, false)),
    ...(chosen ? oneSource(input, chosen, project, true) : []),
    ...(chosen && figure ? edgeRays(chosen, figure.landmarks.noseTip.position, project) : []),
    ...(chosen && figure && !chosen.remote ? heights(chosen, input, project, bounds) : []),
    ...(chosen && figure ? rise(chosen, input, project) : []),
    ...(chosen && figure && !chosen.remote ? tape(chosen, input, project) : []),
    ...meterPlaces(input, project, bounds),
  ]
  return {
    bounds,
    shapes,
    handles: [...handlesOf(input, chosen, project), ...meterHandles(input, project)],
    caption: chosen ? `square to ${chosen.letter}` : 'from camera left',
    description: describe(input, chosen),
    alongX,
    alongZ,
    edgeAt: chosen && figure ? project(figure.landmarks.noseTip.position) : null,
  }
}

/** Horizontal unit from the sitter to the source; the lens axis where there is none. */
function direction(chosen: RigSource | null, { rig }: DrawingInput): readonly [number, number] {
  const eye = rig.figures[0]?.posed.eyeMidpoint ?? ([0, 0, 0] as Vec3)
  const dx = chosen ? chosen.frame.origin[0] - eye[0] : 0
  const dz = chosen ? chosen.frame.origin[2] - eye[2] : 1
  const size = Math.hypot(dx, dz)
  return size > 0.02 ? [dx / size, dz / size] : [0, 1]
}

const oneSource = (
  { sitting, rig }: DrawingInput,
  source: RigSource,
  project: Projection,
  pencil: boolean,
): Shape[] => [
  ...standInElevation(source, standingOf(sitting, rig.view, source), project),
  ...drawSource(source, project, pencil),
  letterOf(source, project, pencil),
]

/** Seen through: a board beside the sitter would hide the very head that it lights. */
const panels = ({ rig, selected }: DrawingInput, project: Projection): Shape[] =>
  rig.surfaces
    .filter(({ kind }) => kind === 'panel')
    .flatMap((surface) => drawPanel(surface, '', project, (surface.of ?? surface.id) === selected, 'none'))

/** The eye line runs on under its words, which may stand outside the bounds. */
const BESIDE_M = 1.5

/** Its height is written behind the head, clear of it. */
function eyeLine({ rig, units }: DrawingInput, bounds: Bounds, project: Projection): Shape[] {
  const { eyeMidpoint, landmarks } = rig.figures[0].posed
  const y = -eyeMidpoint[1]
  const { backOfHead, noseTip, earLeft, earRight } = landmarks
  const behind = Math.min(...[backOfHead, noseTip, earLeft, earRight].map((mark) => project(mark.position)[0])) - 0.06
  const height = lengthLabel(-y, units)
  return [
    line(
      [
        [bounds.minX - BESIDE_M, y],
        [bounds.maxX, y],
      ],
      { weight: 'dimension', dash: 'axis' },
    ),
    text([behind, y], `eye line ${height}`, { tone: 'ink2', anchor: 'end', stands: 'over', short: height }),
  ]
}

/** Top edge, centre and lower edge of the lit face above the floor, written at the right. */
function heights(source: RigSource, { units }: DrawingInput, project: Projection, bounds: Bounds): Shape[] {
  const ys = litFaceOutline(source).map((p) => p[1])
  const centre = source.frame.origin[1]
  const x = bounds.maxX - 0.05
  const start = project(source.frame.origin)[0]
  const level = (height: number, words: string, pencil: boolean): Shape[] => [
    line(
      [
        [start, -height],
        [x + 0.04, -height],
      ],
      { weight: 'dimension' },
    ),
    text([x + 0.09, -height + 0.03], `${lengthLabel(height, units)} ${words}`, {
      tone: pencil ? 'pencil' : 'ink',
      short: `${lengthLabel(height, units)} ${words.replace(' edge', '')}`,
      least: lengthLabel(height, units),
    }),
  ]
  const [top, low] = [Math.max(...ys), Math.min(...ys)]
  return [
    line(
      [
        [x, -top],
        [x, 0],
      ],
      { weight: 'dimension' },
    ),
    ...level(top, 'top edge', false),
    ...level(centre, 'centre', true),
    ...level(low, 'lower edge', false),
  ]
}

/** True length here, where the plan shows its level part. */
function tape(source: RigSource, { rig, sitting, units }: DrawingInput, project: Projection): Shape[] {
  const marks = placeLandmarks(rig.figures[0])
  const centre = source.frame.origin
  const [from, to] = [project(tapeEnd(centre, sitting.camera, marks)), project(centre)]
  const words = `tape ${lengthLabel(placeOf(centre, sitting.camera, marks).tapeM, units)}`
  return [
    ...dimensionLine(from, to, TICK_M, true),
    text(between(from, to, 0.5), words, {
      tone: 'pencil',
      anchor: 'middle',
      angleDeg: readableAngle(from, to),
      stands: 'under',
      along: [from, to],
      // The plan has it too.
      spare: true,
    }),
  ]
}

/** From the eyes to the figure of the angle up, metres. */
const FIGURE_M = 0.79

/** How far up the centre stands above the eye line, as an angle at the eyes; its figure between the rays, not on one. */
function rise(source: RigSource, { rig }: DrawingInput, project: Projection): Shape[] {
  const { eyeMidpoint, landmarks } = rig.figures[0].posed
  const [eye, nose] = [project(eyeMidpoint), project(landmarks.noseTip.position)]
  const at = short(source, eye, project(source.frame.origin))
  const wayTo = (p: Point2) => Math.atan2(p[1] - eye[1], p[0] - eye[0])
  const angle = wayTo(at)
  const rays = rimEnds(source, project).map((rim) => wayTo(between(nose, rim, FIGURE_M / lengthOf(nose, rim))))
  return [
    line([eye, at], { weight: 'dimension' }),
    arc(eye, 0.62, 0, angle),
    angleFigure(eye, amidst(angle, rays), FIGURE_M, degreesLabel((-angle * 180) / Math.PI)),
  ]
}

/** The middle of the widest gap that ways between nought and an angle leave, radians. */
function amidst(angle: number, ways: readonly number[]): number {
  const within = ways.filter((way) => way * angle > 0 && Math.abs(way) < Math.abs(angle))
  const all = [0, ...within, angle].sort((a, b) => Math.abs(a) - Math.abs(b))
  const gaps = all.slice(1).map((to, i) => ({ wide: Math.abs(to - all[i]!), middle: (all[i]! + to) / 2 }))
  return gaps.reduce((best, gap) => (gap.wide > best.wide ? gap : best)).middle
}

function elevationBounds(input: DrawingInput, chosen: RigSource | null, project: Projection): Bounds {
  const { rig, sitting } = input
  const shown = chosen ? [chosen] : rig.sources.filter(hasPlace)
  const points: Vec3[] = [
    ...shown.flatMap((source) => [...extentOf(input, source), addScaled(markOf(source), source.frame.z, -0.35)]),
    ...(rig.figures[0]
      ? [rig.figures[0].posed.landmarks.crown.position, rig.figures[0].posed.landmarks.backOfHead.position]
      : []),
    ...rig.figures.slice(1).map(({ posed }) => posed.landmarks.crown.position),
    ...(chosen
      ? []
      : [rig.view.frame.origin, ...rig.surfaces.filter(({ kind }) => kind === 'panel').flatMap(cornersOf)]),
    ...(chosen || !sitting.backdrop ? [] : [[0, 0, -sitting.backdrop.distanceM] as Vec3]),
  ]
  const loose = boundsOf([...points.map(project), [-0.3, 0]], 0.1)
  return { ...loose, maxY: 0.08, maxX: loose.maxX + (chosen ? 0.1 : 0) }
}

function handlesOf({ rig, sitting, selected }: DrawingInput, chosen: RigSource | null, project: Projection): Handle[] {
  const handles: Handle[] = (chosen ? [chosen] : rig.sources.filter(hasPlace)).map((source) => ({
    target: { type: 'source', id: source.id },
    at: project(markOf(source)),
    name: `height of source ${source.letter}`,
    reachM: 0.3,
  }))
  if (chosen)
    handles.push({
      target: { type: 'aim', id: chosen.id },
      at: project(chosen.aim),
      name: `aim of ${chosen.letter}, height`,
      reachM: 0.06,
    })
  if (chosen) return handles
  const names = namesOf(sitting)
  sitting.sitters.forEach(({ id, xM, zM, eyeHeightM }, i) => {
    handles.push({
      target: { type: 'sitter', id },
      at: project([xM, eyeHeightM, zM]),
      name: `eye height of sitter${i === 0 ? '' : ` ${i + 1}`}`,
      reachM: 0.12,
    })
  })
  if (sitting.backdrop)
    handles.push({
      target: { type: 'backdrop' },
      at: project([0, Math.min(1, sitting.backdrop.heightM), -sitting.backdrop.distanceM]),
      name: 'distance of the backdrop',
      reachM: 0.12,
    })
  for (const panel of sitting.panels)
    handles.push({
      target: { type: 'panel', id: panel.id },
      at: project(panel.centreM as Vec3),
      name: `height of ${names.get(panel.id)}`,
      reachM: 0.2,
    })
  for (const object of sitting.objects)
    handles.push({
      target: { type: 'object', id: object.id },
      at: project(object.centreM as Vec3),
      name: `height of ${names.get(object.id)}`,
      reachM: 0.15,
    })
  if (selected !== null)
    handles.push({
      target: { type: 'camera' },
      at: project(rig.view.frame.origin),
      name: 'height of the camera',
      reachM: 0.2,
    })
  return handles
}

function describe({ rig, units }: DrawingInput, chosen: RigSource | null): string {
  const eye = rig.figures[0]?.posed.eyeMidpoint[1] ?? 0
  const head = `Elevation, ${chosen ? `square to source ${chosen.letter}` : 'from camera left'}: eye line ${lengthLabel(eye, units)}`
  const each = (chosen ? [chosen] : rig.sources).map((source) =>
    source.remote
      ? `${source.letter} ${hasPlace(source) ? 'far off' : 'all round'}`
      : `centre of ${source.letter} at ${lengthLabel(source.frame.origin[1], units)}`,
  )
  return `${[head, ...each].join('; ')}.`
}
