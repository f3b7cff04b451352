import {
  BackSide,
  BufferAttribute,
  BufferGeometry,
  type Color,
  DoubleSide,
  EdgesGeometry,
  Group,
  Line,
  LineBasicMaterial,
  LineLoop,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
} from 'three'
import { directionThrough } from '../../camera'
import { litFaceOutline, type Rig, type RigFigure, type RigSource, type Surface, solidMesh } from '../../rig'
import { add, addScaled, ballMesh, scale, subtract, type Mesh as Triangles, type Vec3 } from '../../space'

/** The page's own colours. */
export interface Ink {
  readonly sheet: Color
  readonly line: Color
  readonly thin: Color
  readonly pencil: Color
}

/** Round a body's outline, metres: a hull so much larger shows from behind it. */
const HULL_M = 0.004
/** A crease sharper than this is a line, degrees. */
const CREASE_DEG = 40
/** The rays of the lens are drawn this long, metres. */
const FIELD_M = 0.5

const geometryOf = ({ positions, indices }: Triangles): BufferGeometry => {
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(positions, 3))
  geometry.setIndex(new BufferAttribute(indices, 1))
  return geometry
}

const pathOf = (points: readonly Vec3[]): BufferGeometry =>
  new BufferGeometry().setAttribute('position', new BufferAttribute(Float32Array.from(points.flat()), 3))

/** Filled with the sheet, a little behind its own lines, so that it hides what it stands before. */
const filling = (ink: Ink) =>
  new MeshBasicMaterial({
    color: ink.sheet,
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  })

/** Of sitters, who stay the same while other things move: their body and its hull. */
const bodies = new WeakMap<Triangles, readonly [BufferGeometry, BufferGeometry]>()

function keptBody(mesh: Triangles): readonly [BufferGeometry, BufferGeometry] {
  const made = bodies.get(mesh) ?? bodyOf(mesh)
  for (const geometry of made) geometry.userData.stays = true
  bodies.set(mesh, made)
  return made
}

const bodyOf = (mesh: Triangles) =>
  [
    geometryOf(mesh),
    geometryOf({ ...mesh, positions: mesh.positions.map((at, i) => at + HULL_M * mesh.normals[i]!) }),
  ] as const

/** A body without corners: its outline is a hull seen from behind. */
const rounded = ([body, hull]: readonly [BufferGeometry, BufferGeometry], color: Color, ink: Ink): Group =>
  new Group().add(new Mesh(body, filling(ink)), new Mesh(hull, new MeshBasicMaterial({ color, side: BackSide })))

const creased = (mesh: Triangles, color: Color, ink: Ink): Group => {
  const geometry = geometryOf(mesh)
  return new Group().add(
    new Mesh(geometry, filling(ink)),
    new LineSegments(new EdgesGeometry(geometry, CREASE_DEG), new LineBasicMaterial({ color })),
  )
}

function sitter({ posed }: RigFigure, color: Color, ink: Ink): Group {
  const group = new Group()
  for (const { mesh } of posed.parts) group.add(rounded(keptBody(mesh), color, ink))
  return group
}

const cornersOf = ({ centre, halfU, halfV }: Surface['rect']): readonly Vec3[] =>
  [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => add(centre, add(scale(halfU, u!), scale(halfV, v!))))

const ROOM: readonly Surface['kind'][] = ['wall', 'floor', 'ceiling']

/** Walls are their edges alone, or they would hide the set from outside. */
function board({ rect, kind }: Surface, color: Color, ink: Ink): Group {
  const corners = cornersOf(rect)
  const group = new Group().add(new LineLoop(pathOf(corners), new LineBasicMaterial({ color })))
  if (ROOM.includes(kind)) return group
  const geometry = pathOf(corners).setIndex([0, 1, 2, 0, 2, 3])
  return group.add(new Mesh(geometry, filling(ink)))
}

function source({ gear, frame, aim, remote, ...rest }: RigSource, color: Color, ink: Ink): Group {
  const group = new Group()
  if (remote) return group
  for (const solid of gear) {
    const mesh = solidMesh(solid)
    group.add(creased(mesh, color, ink))
    if (solid.kind === 'cylinder') group.add(rounded(bodyOf(mesh), color, ink))
  }
  group.add(new LineLoop(pathOf(litFaceOutline({ gear, frame, aim, ...rest })), new LineBasicMaterial({ color })))
  // The line that it is aimed along, and the plumb line to where its stand is.
  group.add(new Line(pathOf([frame.origin, aim]), new LineBasicMaterial({ color: ink.thin })))
  group.add(
    new Line(pathOf([frame.origin, [frame.origin[0], 0, frame.origin[2]]]), new LineBasicMaterial({ color: ink.thin })),
  )
  return group
}

/** The lens as the four corners of its field; nothing else of it shows where it looks. */
function camera({ view }: Rig, color: Color): Group {
  const { origin } = view.frame
  const corners = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([x, y]) => addScaled(origin, directionThrough(x!, y!, view.frame, view), FIELD_M))
  const material = new LineBasicMaterial({ color })
  return new Group().add(
    new LineLoop(pathOf(corners), material),
    ...corners.map((corner) => new Line(pathOf([origin, corner]), material)),
  )
}

/** The set as lines on the page's sheet: what is in hand in pencil. */
export function setLines(rig: Rig, selected: readonly string[], ink: Ink): Group {
  const colour = (id: string, usual: Color = ink.line) => (selected.includes(id) ? ink.pencil : usual)
  const group = new Group()
  for (const figure of rig.figures) group.add(sitter(figure, colour(figure.id), ink))
  for (const surface of rig.surfaces)
    group.add(board(surface, colour(surface.of ?? surface.id, ROOM.includes(surface.kind) ? ink.thin : ink.line), ink))
  for (const ball of rig.balls) group.add(rounded(bodyOf(ballMesh(ball.centre, ball.radiusM)), colour(ball.id), ink))
  for (const lamp of rig.sources) group.add(source(lamp, colour(lamp.id), ink))
  return group.add(camera(rig, colour('camera', ink.thin)))
}

/** What the letters stand at: each source above its middle, and the lens. */
export const lettersOf = (rig: Rig): readonly { readonly id: string; readonly words: string; readonly at: Vec3 }[] => [
  ...rig.sources
    .filter(({ remote }) => !remote)
    .map(({ id, letter, frame }) => ({ id, words: letter, at: add(frame.origin, [0, 0.12, 0]) })),
  { id: 'camera', words: 'lens', at: subtract(rig.view.frame.origin, [0, 0.1, 0]) },
]

/** Gives back what the graphics card holds of it. */
export function dispose(group: Group): void {
  group.traverse((thing) => {
    if (!(thing instanceof Mesh || thing instanceof Line)) return
    if (!thing.geometry.userData.stays) thing.geometry.dispose()
    thing.material.dispose()
  })
}
