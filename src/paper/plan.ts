import { placeLandmarks, type RigSource, standingOf } from '../rig'
import { placeOf, tapeEnd } from '../sitting'
import { addScaled, radians, type Vec3 } from '../space'
import { depthInPlan } from './depth'
import { edgeDetail } from './detail'
import { fixedPointsOf } from './fixed-points'
import { boundsOf, planProjection } from './outline'
import { allRound, extentOf, hasPlace, markOf } from './remote'
import { backdropInPlan, cameraShapes, cornersOf, drawPanel, objectShapes, TRIPOD_M, wallsInPlan } from './set'
import { angleFigure, arc, dimension, line, text } from './shapes'
import { meterHandles, meterPlaces, sitterInPlan } from './sitter'
import { drawSource, edgeRays, letterOf, standInPlan } from './source'
import type { Bounds, Drawing, DrawingInput, Handle, Point2, Shape } from './types'
import { degreesLabel, lengthLabel, namesOf, sizeLabel } from './words'

/** The set from above, to scale: camera at the bottom, backdrop at the top. */
export function drawPlan(input: DrawingInput): Drawing {
  const { sitting, rig, selected } = input
  const bounds = planBounds(input)
  const placed = rig.sources.filter(hasPlace)
  const chosen = placed.find((source) => source.id === selected) ?? null
  const figure = rig.figures[0]?.posed ?? null
  const shapes: Shape[] = [
    ...wallsInPlan(sitting),
    ...backdropInPlan(input, bounds),
    ...cameraShapes(rig.view, fieldReach(input), planProjection, selected === 'camera', true),
    ...rig.figures.flatMap(({ posed, id }) => sitterInPlan(posed, id === selected)),
    ...fixedPoints(input),
    ...panels(input),
    ...objectShapes(rig, planProjection, selected),
    ...placed.filter((source) => source !== chosen).flatMap((source) => oneSource(input, source, false)),
    ...(chosen ? oneSource(input, chosen, true) : []),
    ...(chosen && figure ? edgeRays(chosen, figure.landmarks.noseTip.position, planProjection) : []),
    ...(chosen ? sourceDimensions(chosen, input) : []),
    ...setDimensions(input, bounds),
    ...depthInPlan(input),
    ...meterPlaces(input, planProjection, bounds),
    ...allRound(rig.sources, bounds, selected),
    sideName([bounds.minX + 0.02, bounds.maxY - 0.02], 'camera left', 'start'),
    sideName([bounds.maxX - 0.02, bounds.maxY - 0.02], 'camera right', 'end'),
    ...(chosen && figure ? edgeDetail(chosen, figure, detailCentre(chosen, bounds), DETAIL_RADIUS_M) : []),
  ]
  return {
    bounds,
    shapes,
    handles: planHandles(input),
    caption: chosen ? `drag ${chosen.letter} over the floor` : 'tap a thing to take it in hand',
    description: describe(input),
  }
}

/** So far from its corner a side's name may go where a wall runs through it. */
const SIDE_SLIDES_M = 0.6

const sideName = ([x, y]: Point2, words: string, anchor: 'start' | 'end'): Shape =>
  text([x, y], words, {
    tone: 'ink2',
    anchor,
    along: [
      [x - SIDE_SLIDES_M, y],
      [x + SIDE_SLIDES_M, y],
    ],
  })

const DETAIL_RADIUS_M = 0.42

/** The lower corner on the side away from the source: free of its drawing. */
const detailCentre = (source: RigSource, bounds: Bounds): Point2 =>
  source.frame.origin[0] >= 0
    ? [bounds.minX + DETAIL_RADIUS_M + 0.05, bounds.maxY - DETAIL_RADIUS_M - 0.25]
    : [bounds.maxX - DETAIL_RADIUS_M - 0.3, bounds.maxY - DETAIL_RADIUS_M - 0.25]

const oneSource = ({ sitting, rig }: DrawingInput, source: RigSource, pencil: boolean): Shape[] => [
  ...standInPlan(source, standingOf(sitting, rig.view, source), planProjection),
  ...drawSource(source, planProjection, pencil),
  letterOf(source, planProjection, pencil),
]

function panels({ sitting, rig, selected, units }: DrawingInput): Shape[] {
  return rig.surfaces
    .filter((surface) => surface.kind === 'panel')
    .flatMap((surface) => {
      const id = surface.of ?? surface.id
      // The name once, beside the first leaf.
      const panel = surface.of ? undefined : sitting.panels.find((other) => other.id === id)
      const size = panel ? `${sizeLabel(panel.widthM, units)} × ${sizeLabel(panel.heightM, units)}` : ''
      return drawPanel(surface, panel ? `${panel.kind} ${size}` : '', planProjection, id === selected)
    })
}

/** So far from its place beside the head X may go where lines cross it. */
const X_SLIDES_M = 0.12

/** X and Z, from which the tape is laid: heavier than the lines that meet there. */
function fixedPoints({ sitting }: DrawingInput): Shape[] {
  const cross = (at: Point2, letter: string, under = false): Shape[] => [
    line(
      [
        [at[0] - 0.05, at[1]],
        [at[0] + 0.05, at[1]],
      ],
      { weight: 'object' },
    ),
    line(
      [
        [at[0], at[1] - 0.05],
        [at[0], at[1] + 0.05],
      ],
      { weight: 'object' },
    ),
    under
      ? text([at[0] - 0.06, at[1]], letter, { anchor: 'end', stands: 'under' })
      : text([at[0] - 0.13, at[1] - 0.15], letter, {
          anchor: 'end',
          along: [
            [at[0] - 0.13 - X_SLIDES_M, at[1] - 0.15],
            [at[0] - 0.13 + X_SLIDES_M, at[1] - 0.15],
          ],
        }),
  ]
  const { x, z } = fixedPointsOf(sitting)
  return [...cross(x, 'X'), ...cross(z, 'Z', true)]
}

/** Tape and angle of the source in hand, measured as the document measures them. */
function sourceDimensions(source: RigSource, { sitting, rig, units }: DrawingInput): Shape[] {
  const [figure] = rig.figures
  if (!figure) return []
  const marks = placeLandmarks(figure)
  const centre = source.frame.origin
  const place = placeOf(centre, sitting.camera, marks)
  const eye = planProjection(marks.eyePoint)
  const at = planProjection(centre)
  const round = Math.atan2(at[1] - eye[1], at[0] - eye[0])
  const lens = round + radians(place.azimuthFromLensDeg)
  const middle = (round + lens) / 2
  const label = degreesLabel(Math.abs(place.azimuthFromLensDeg))
  return [
    ...(source.remote
      ? []
      : dimension(
          planProjection(tapeEnd(centre, sitting.camera, marks)),
          at,
          `tape ${lengthLabel(place.tapeM, units)}`,
          { pencil: true, slides: true },
        )),
    line([eye, [eye[0] + 0.95 * Math.cos(lens), eye[1] + 0.95 * Math.sin(lens)]], {
      weight: 'dimension',
      dash: 'axis',
    }),
    arc(eye, 0.85, lens, round),
    angleFigure(eye, middle, 0.97, label),
  ]
}

/** Backdrop to sitter to camera, down the right edge. */
function setDimensions({ sitting, rig, units }: DrawingInput, bounds: Bounds): Shape[] {
  const x = bounds.maxX - 0.12
  const camera = rig.view.frame.origin[2]
  const behind = sitting.backdrop ? [-sitting.backdrop.distanceM] : []
  const stations = [...behind, 0, camera].sort((a, b) => a - b)
  return stations
    .slice(1)
    .flatMap((z, i) => dimension([x, stations[i]], [x, z], lengthLabel(z - stations[i], units), { slides: true }))
}

/** Field edges run to the backdrop where there is one in front of the lens, else a metre past the sitter. */
function fieldReach({ sitting, rig }: DrawingInput): number {
  const z = rig.view.frame.origin[2]
  return sitting.backdrop ? Math.max(0.5, z + sitting.backdrop.distanceM) : Math.max(0.5, z + 1)
}

/** At the right edge, beside everything that stands in the set. */
const ROOM_FOR_DIMENSIONS_M = 0.35

/** Of a wide backdrop. */
const BACKDROP_SHOWN_M = 2.8

function planBounds(input: DrawingInput): Bounds {
  const { sitting, rig, backdropShownM = BACKDROP_SHOWN_M } = input
  const points: Vec3[] = [
    [0, 0, 0.3],
    rig.view.frame.origin,
    addScaled(rig.view.frame.origin, rig.view.frame.z, -0.1 - TRIPOD_M),
    ...rig.sources.filter(hasPlace).flatMap((source) => extentOf(input, source)),
    ...rig.surfaces.filter(({ kind }) => kind === 'panel' || kind === 'card').flatMap(cornersOf),
    ...rig.balls.map(({ centre }) => centre),
    ...rig.figures
      .slice(1)
      .flatMap(({ posed: { landmarks } }) => [landmarks.shoulderLeft.position, landmarks.shoulderRight.position]),
  ]
  const half = sitting.backdrop ? Math.min(sitting.backdrop.widthM, backdropShownM) / 2 : 1
  const z = sitting.backdrop ? -sitting.backdrop.distanceM - 0.05 : -0.8
  const all = boundsOf([...points, [-half, 0, z] as Vec3, [half, 0, z] as Vec3].map(planProjection), 0.05)
  return { ...all, minX: all.minX - 0.1, maxX: all.maxX + ROOM_FOR_DIMENSIONS_M }
}

function planHandles({ sitting, rig, selected, units }: DrawingInput): Handle[] {
  const names = namesOf(sitting)
  const handles: Handle[] = rig.sources.filter(hasPlace).map((source) => ({
    target: { type: 'source', id: source.id },
    at: planProjection(markOf(source)),
    name: `source ${source.letter}, ${source.role}`,
    reachM: 0.3,
  }))
  const chosen = rig.sources.filter(hasPlace).find(({ id }) => id === selected)
  if (chosen)
    handles.push({
      target: { type: 'aim', id: chosen.id },
      at: planProjection(chosen.aim),
      name: `aim of ${chosen.letter}`,
      reachM: 0.06,
    })
  for (const { id, centreM } of sitting.panels)
    handles.push({
      target: { type: 'panel', id },
      at: [centreM[0], centreM[2]],
      name: names.get(id) ?? 'panel',
      reachM: 0.25,
    })
  for (const object of sitting.objects)
    handles.push({
      target: { type: 'object', id: object.id },
      at: [object.centreM[0], object.centreM[2]],
      name: names.get(object.id) ?? object.kind,
      reachM: 0.15,
    })
  for (const [i, figure] of rig.figures.entries()) {
    const word = i === 0 ? 'sitter' : `sitter ${i + 1}`
    const nose = addScaled(figure.posed.landmarks.noseTip.position, figure.posed.noseDirection, 0.09)
    handles.push({
      target: { type: 'sitter', id: figure.id },
      at: planProjection(figure.posed.eyeMidpoint),
      name: word,
      reachM: 0.12,
    })
    handles.push({
      target: { type: 'nose', id: figure.id },
      at: planProjection(nose),
      name: i === 0 ? 'turn of the head' : `turn of the head of ${word}`,
      reachM: 0.06,
    })
  }
  handles.push({ target: { type: 'camera' }, at: planProjection(rig.view.frame.origin), name: 'camera', reachM: 0.2 })
  if (sitting.backdrop)
    handles.push({ target: { type: 'backdrop' }, at: [0, -sitting.backdrop.distanceM], name: 'backdrop', reachM: 0.12 })
  return [...handles, ...meterHandles({ sitting, rig, selected, units }, planProjection)]
}

function describe({ sitting, rig, units }: DrawingInput): string {
  const sources = rig.sources.map((source) => {
    const named = `source ${source.letter} ${source.on ? '' : '(off) '}`
    const { origin } = source.frame
    if (!hasPlace(source)) return `${named}all round`
    if (source.remote)
      return `${named}far off, ${origin[0] < 0 ? 'left' : 'right'} and ${origin[2] < 0 ? 'behind' : 'in front'}`
    return `${named}at ${lengthLabel(origin[0], units)} right and ${lengthLabel(origin[2], units)} in front of the sitter`
  })
  const backdrop = sitting.backdrop ? [`backdrop ${lengthLabel(sitting.backdrop.distanceM, units)} behind`] : []
  return `Plan, camera below, backdrop above: ${[...sources, ...backdrop, `${sitting.panels.length} panels`].join('; ')}.`
}
