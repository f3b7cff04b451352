import { viewTangent } from '../../camera'
import { convexHull, planProjection, solidPoints } from '../../paper'
import { keyOf, litFaceOutline, panelSurfaces, type Rig, type RigSource, type Surface } from '../../rig'
import { type Panel, type Sitting, setPanel, thingById } from '../../sitting'
import { addScaled, degrees, radians, type Vec3 } from '../../space'

type Point = readonly [number, number]
/** Convex, on the floor: metres to camera right and to the camera. */
type Outline = readonly Point[]

/** Places tried: from where the panel first stands round the sitter, to the front farther than to the back, degrees, and outwards, metres. */
const ROUND = { stepDeg: 10, toFront: 8, toBack: 3 }
const OUT = { stepM: 0.15, steps: 12 }
/** A degree round counts as so many metres outwards. */
const METRES_A_DEGREE = 0.01
/** Half the thickness of a board and a hand's room, metres. */
const CLEAR_M = 0.05
/** One point in so many of a figure tells where it stands. */
const THINNED = 9

/**
 * A new panel on the side of the sitter that is turned from the key, facing the sitter: clear of all that stands there, of the light's
 * way and of the picture, and as near to its usual place as that can be. Where nothing is free it stands at its usual place.
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
  ]
  const isFree = (place: Pick<Panel, 'centreM' | 'turnDeg'>): boolean => {
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
  return setPanel(
    sitting,
    id,
    [first, ...places(first.centreM, side), ...places(first.centreM, -side)].find(isFree) ?? first,
  )
}

/** On one side of the sitter, the nearest to the usual place first; each faces the sitter. */
function places([x, y, z]: Vec3, side: number): readonly Pick<Panel, 'centreM' | 'turnDeg'>[] {
  const usual = { out: Math.hypot(x, z), deg: degrees(Math.atan2(Math.abs(x), z)) }
  const spots = [...Array(OUT.steps).keys()].flatMap((outwards) =>
    [...Array(ROUND.toFront + ROUND.toBack + 1).keys()].map((step) => {
      const [round, out] = [(step - ROUND.toFront) * ROUND.stepDeg, outwards * OUT.stepM]
      return { deg: usual.deg + round, out: usual.out + out, far: Math.abs(round) * METRES_A_DEGREE + out }
    }),
  )
  return spots
    .sort((a, b) => a.far - b.far)
    .map(({ deg, out }) => {
      const [across, along] = [side * out * Math.sin(radians(deg)), out * Math.cos(radians(deg))]
      return {
        centreM: [toCentimetre(across), y, toCentimetre(along)],
        turnDeg: Math.round(degrees(Math.atan2(-across, -along))),
      }
    })
}

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

/** Two convex outlines are apart where a line square to a side of one of them has room between them. */
function areApart(one: Outline, other: Outline): boolean {
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
