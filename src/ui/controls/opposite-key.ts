import { viewTangent } from '../../camera'
import { convexHull, planProjection, solidPoints } from '../../paper'
import { keyOf, litFaceOutline, panelSurfaces, placeLandmarks, type Rig, type RigSource, type Surface } from '../../rig'
import { type Panel, type Sitting, setPanel, thingById } from '../../sitting'
import { addScaled, degrees, radians, type Vec3 } from '../../space'

type Point = readonly [number, number]
/** Convex, on the floor: metres to camera right and to the camera. */
type Outline = readonly Point[]

/** Places tried: from where the panel first stands round the sitter, to the front farther than to the back, degrees, and outwards, metres. */
const ROUND = { stepDeg: 10, toFront: 8, toBack: 3 }
const OUT = { stepM: 0.15, steps: 12 }
/** A degree round counts as so many metres outwards; a degree that a V-flat is turned from the sitter as half as many. */
const METRES_A_DEGREE = { round: 0.01, turned: 0.005 }
/** A V-flat stands so far from the cheek, metres, as common practice has it (from memory, no source); a metre off that counts as so many, the other side of the sitter as so many metres. */
const V_FLAT = { nearM: 0.6, farM: 1, counts: 12, overM: 1, inwards: 4, turnsDeg: [0, 15, 30, 45] }
/** Half the thickness of a board and a hand's room, metres. */
const CLEAR_M = 0.05
/** The camera with whoever looks through it, from the lens to either side, metres. */
const CAMERA_M = 0.35
/** One point in so many of a figure tells where it stands. */
const THINNED = 9

type Spot = Pick<Panel, 'centreM' | 'turnDeg'>

/**
 * A new panel on the side of the sitter that is turned from the key, facing the sitter: clear of all that stands there, of the light's
 * way and of the picture, and as near to its usual place as that can be; a V-flat within reach of the cheek there, turned a little
 * where that helps. Where nothing is free it stands at its usual place.
 */
export function oppositeKey(sitting: Sitting, rig: Rig, id: string): Sitting {
  const panel = thingById(sitting, 'panels', id)
  const [x, y, z] = panel.centreM
  const side = (keyOf(rig)?.frame.origin[0] ?? 0) < 0 ? 1 : -1
  const first = { centreM: [side * Math.abs(x), y, z] as Vec3, turnDeg: -side * Math.abs(panel.turnDeg) }
  const things = thingsOn(sitting, rig, id)
  const taken = [
    ...things,
    ...rig.figures.map(figureOutline),
    ...rig.sources.flatMap(lightsWay),
    sightOf(rig, sitting.backdrop),
    square(rig.view.frame.origin[0], rig.view.frame.origin[2], CAMERA_M),
  ]
  const isFree = (place: Spot): boolean => {
    const own = outlineOf(panelSurfaces({ ...panel, ...place }).flatMap(cornersOf))
    const toSitter: Outline = [
      [place.centreM[0], place.centreM[2]],
      [0, 0],
    ]
    return (
      isWithin(sitting, own) &&
      taken.every((one) => areApart(own, one)) &&
      things.every((one) => areApart(toSitter, one))
    )
  }
  return setPanel(sitting, id, [first, ...places(panel, first.centreM, side, rig)].find(isFree) ?? first)
}

/** The nearest to the usual place first, all on the wanted side of the sitter before those on the other; a V-flat goes over where it has no room. */
function places(panel: Panel, usual: Vec3, side: number, rig: Rig): readonly Spot[] {
  const over = panel.foldDeg === undefined ? Number.POSITIVE_INFINITY : V_FLAT.overM
  return [
    ...placesOn(panel, usual, side, rig),
    ...placesOn(panel, usual, -side, rig).map(({ spot, far }) => ({ spot, far: far + over })),
  ]
    .sort((a, b) => a.far - b.far)
    .map(({ spot }) => spot)
}

/** Each faces the sitter, a V-flat about. far: from the usual place, metres. */
function placesOn(panel: Panel, [x, y, z]: Vec3, side: number, rig: Rig): readonly { spot: Spot; far: number }[] {
  const usual = { out: Math.hypot(x, z), deg: degrees(Math.atan2(Math.abs(x), z)) }
  const isFolded = panel.foldDeg !== undefined
  const inwards = isFolded ? V_FLAT.inwards : 0
  const turns = isFolded ? [...new Set(V_FLAT.turnsDeg.flatMap((deg) => [deg, -deg]))] : [0]
  const cheek = isFolded ? cheekOn(side, rig) : null
  return [...Array(inwards + OUT.steps).keys()].flatMap((ring) =>
    [...Array(ROUND.toFront + ROUND.toBack + 1).keys()].flatMap((step) =>
      turns.map((turned) => {
        const [round, out] = [(step - ROUND.toFront) * ROUND.stepDeg, (ring - inwards) * OUT.stepM]
        const spot = spotAt(side, usual.deg + round, usual.out + out, y, turned)
        const far = Math.abs(round) * METRES_A_DEGREE.round + Math.abs(out) + Math.abs(turned) * METRES_A_DEGREE.turned
        return { spot, far: far + (cheek ? V_FLAT.counts * outOfReach(toFace({ ...panel, ...spot }, cheek)) : 0) }
      }),
    ),
  )
}

function spotAt(side: number, deg: number, out: number, y: number, turned: number): Spot {
  const [across, along] = [side * out * Math.sin(radians(deg)), out * Math.cos(radians(deg))]
  return {
    centreM: [toCentimetre(across), y, toCentimetre(along)],
    turnDeg: Math.round(degrees(Math.atan2(-across, -along))) + turned,
  }
}

/** On the floor. */
function cheekOn(side: number, { figures: [figure] }: Rig): Point | null {
  if (!figure) return null
  const { cheekLeft, cheekRight } = placeLandmarks(figure)
  const [x, , z] = [cheekLeft, cheekRight].reduce((a, b) => (side * a[0] > side * b[0] ? a : b))
  return [x, z]
}

/** Metres by which a board is nearer or farther than it may be. */
const outOfReach = (m: number): number => Math.max(0, V_FLAT.nearM - m, m - V_FLAT.farM)

/** From a point to the nearest of the boards, on the floor, metres. */
const toFace = (panel: Panel, [px, pz]: Point): number =>
  Math.min(
    ...panelSurfaces(panel).map(({ rect: { centre, halfU } }) => {
      const [dx, dz] = [px - centre[0], pz - centre[2]]
      const along = (dx * halfU[0] + dz * halfU[2]) / (halfU[0] ** 2 + halfU[2] ** 2)
      const t = Math.max(-1, Math.min(1, along))
      return Math.hypot(dx - t * halfU[0], dz - t * halfU[2])
    }),
  )

const toCentimetre = (m: number): number => Math.round(100 * m) / 100

const outlineOf = (points: readonly Vec3[]): Outline => convexHull(points.map(planProjection))

/** Sources, panels and objects as they stand on the floor. */
function thingsOn(sitting: Sitting, rig: Rig, id: string): readonly Outline[] {
  const flat = ['panel', 'card', 'flag']
  const boards = rig.surfaces.filter(({ kind, id: own, of = own }) => flat.includes(kind) && of !== id)
  const whole = new Map<string, Vec3[]>()
  for (const board of boards)
    whole.set(board.of ?? board.id, [...(whole.get(board.of ?? board.id) ?? []), ...cornersOf(board)])
  return [
    ...rig.sources.filter(({ remote }) => !remote).map(bodyOf),
    ...[...whole.values()].map(outlineOf),
    ...rig.balls.map(({ centre: [x, , z], radiusM: r }): Outline => square(x, z, r)),
    ...(sitting.backdrop ? [paperLine(sitting.backdrop)] : []),
  ]
}

const bodyOf = (source: RigSource): Outline =>
  outlineOf([...source.gear.flatMap(solidPoints), ...litFaceOutline(source)])

const square = (x: number, z: number, r: number): Outline => [
  [x - r, z - r],
  [x + r, z - r],
  [x + r, z + r],
  [x - r, z + r],
]

const paperLine = ({ widthM, distanceM }: NonNullable<Sitting['backdrop']>): Outline => [
  [-widthM / 2, -distanceM],
  [widthM / 2, -distanceM],
]

const figureOutline = ({ posed }: Rig['figures'][number]): Outline =>
  outlineOf(
    posed.parts.flatMap(({ mesh: { positions } }) =>
      Array.from({ length: Math.floor(positions.length / 3 / THINNED) }, (_, i): Vec3 => {
        const at = 3 * THINNED * i
        return [positions[at]!, positions[at + 1]!, positions[at + 2]!]
      }),
    ),
  )

/** From a source that is on to what it is aimed at. */
const lightsWay = (source: RigSource): readonly Outline[] =>
  source.on && !source.remote ? [outlineOf([...litFaceOutline(source), source.aim])] : []

/** What the lens sees as far as the paper, or so far behind the sitter. */
const BEHIND_M = 1.5
function sightOf({ view }: Rig, backdrop: Sitting['backdrop']): Outline {
  const { origin, x, z } = view.frame
  const far = Math.hypot(origin[0], origin[2]) + (backdrop?.distanceM ?? BEHIND_M)
  const half = far * viewTangent(view.sensorWidthMm, view.focalLengthMm)
  const middle = addScaled(origin, z, far)
  return outlineOf([origin, addScaled(middle, x, half), addScaled(middle, x, -half)])
}

function cornersOf({ rect: { centre, halfU, halfV } }: Surface): readonly Vec3[] {
  const sides = [-1, 1] as const
  return sides.flatMap((u) => sides.map((v) => addScaled(addScaled(centre, halfU, u), halfV, v)))
}

function isWithin({ room }: Sitting, own: Outline): boolean {
  if (room.outdoors) return true
  return own.every(
    ([x, z]) => Math.abs(x - room.xM) < room.widthM / 2 - CLEAR_M && Math.abs(z - room.zM) < room.depthM / 2 - CLEAR_M,
  )
}

/** Boxes about outlines are soon told apart. */
const boxOf = (outline: Outline): readonly (readonly [number, number])[] =>
  [0, 1].map((axis) => {
    const values = outline.map((point) => point[axis]!)
    return [Math.min(...values), Math.max(...values)]
  })

/** Two convex outlines are apart where a line square to a side of one of them has room between them. */
function areApart(one: Outline, other: Outline): boolean {
  const [a, b] = [boxOf(one), boxOf(other)]
  if (a.some(([low, high], axis) => low > b[axis]![1] + CLEAR_M || b[axis]![0] > high + CLEAR_M)) return true
  return [one, other].some((outline) =>
    outline.some((from, i) => {
      const to = outline[(i + 1) % outline.length]!
      const [nx, nz] = [to[1] - from[1], from[0] - to[0]]
      const size = Math.hypot(nx, nz)
      if (size === 0) return false
      return [
        [nx / size, nz / size],
        [-nz / size, nx / size],
      ].some(([ax, az]) => {
        const [a, b] = [one, other].map((points) => points.map(([x, z]) => x * ax! + z * az!))
        return Math.min(...a!) > Math.max(...b!) + CLEAR_M || Math.min(...b!) > Math.max(...a!) + CLEAR_M
      })
    }),
  )
}
