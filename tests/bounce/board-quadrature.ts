import type { Rect, Vec3 } from '../../src/space'

/**
 * Brute force over matt boards lit by a small flash, from the physics alone: I = cosⁿθ falls on each patch of a board, which
 * sends ρ/π of it to the other boards and to a place (midpoint rule on all of them). Nothing stands in between. Fronts only.
 */
export interface SmallFlash {
  readonly at: Vec3
  readonly aim: Vec3
  readonly exponent: number
}

interface Patch {
  readonly point: Vec3
  readonly normal: Vec3
  readonly areaM2: number
  readonly board: number
}

const dot = (a: Vec3, b: Vec3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
const times = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k]
const size = (a: Vec3) => Math.sqrt(dot(a, a))

function patchesOf({ centre, halfU: u, halfV: v }: Rect, board: number, side: number): Patch[] {
  const across: Vec3 = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]
  const normal = times(across, 1 / size(across))
  return Array.from({ length: side * side }, (_, i) => {
    const [a, b] = [(2 * ((i % side) + 0.5)) / side - 1, (2 * (Math.floor(i / side) + 0.5)) / side - 1]
    const point = [0, 1, 2].map((k) => centre[k] + a * u[k] + b * v[k]) as unknown as Vec3
    return { point, normal, areaM2: (4 * size(u) * size(v)) / (side * side), board }
  })
}

/** cos·cos/r² between two facing places; 0 where either looks away. */
function exchange(a: Vec3, normalA: Vec3, b: Vec3, normalB: Vec3): number {
  const way = minus(b, a)
  const squared = dot(way, way)
  const [from, to] = [dot(way, normalA), -dot(way, normalB)]
  return from > 0 && to > 0 ? (from * to) / (squared * squared) : 0
}

type Place = { readonly point: Vec3; readonly normal: Vec3 }

/**
 * Light by way of the boards alone at any place, per candela on the flash's axis, 1/m². Patches beside a hinge err as 1/side,
 * which is extrapolated away; those of one board alone err as 1/side², by 0.1 % at most.
 */
export function reflectedBy(flash: SmallFlash, boards: readonly Rect[], rho: number): (place: Place) => number {
  const [coarse, fine] = [16, 32].map((side) => sentBy(flash, boards, rho, side))
  return (place) => 2 * fine(place) - coarse(place)
}

function sentBy(
  flash: SmallFlash,
  boards: readonly Rect[],
  reflectance: number,
  side: number,
): (place: Place) => number {
  const patches = boards.flatMap((rect, i) => patchesOf(rect, i, side))
  const axis = minus(flash.aim, flash.at)
  const direct = patches.map(({ point, normal }) => {
    const way = minus(point, flash.at)
    const far = size(way)
    const cosine = dot(way, axis) / far / size(axis)
    return cosine > 0 ? (cosine ** flash.exponent * Math.max(0, -dot(way, normal) / far)) / (far * far) : 0
  })
  const others = patches.map((to) =>
    patches.flatMap((from, j) => {
      const share = from.board === to.board ? 0 : exchange(from.point, from.normal, to.point, to.normal) * from.areaM2
      return share > 0 ? [{ j, share: (share * reflectance) / Math.PI }] : []
    }),
  )
  let arriving = direct
  for (let bounce = 0; bounce < (boards.length > 1 ? 5 : 0); bounce++)
    arriving = direct.map((e, i) => others[i].reduce((sum, { j, share }) => sum + share * arriving[j], e))
  return (place) =>
    patches.reduce(
      (sum, { point, normal, areaM2 }, i) =>
        sum + (reflectance / Math.PI) * arriving[i] * exchange(point, normal, place.point, place.normal) * areaM2,
      0,
    )
}

const rect = (centre: Vec3, halfU: Vec3, halfV: Vec3): Rect => ({ centre, halfU, halfV })
const SIDE = 0.5 * Math.SQRT1_2
/** Hinge of a V-flat whose leaves of 1 × 2 m stand at a right angle, open to the middle of the room. */
const HINGE: Vec3 = [-1.6, 1, 0.5]

/** Of a room of 3.5 × 2.5 × 4 m about the middle of its floor. */
export const BOUNCED_ROOM: Vec3 = [3.5, 2.5, 4]
/** What a flash over the lens is turned to: the only things of ρ 0.8 in a black room; wall: the name of a room's surface. */
export const BOUNCED: readonly {
  readonly name: string
  readonly aim: Vec3
  readonly boards: readonly Rect[]
  readonly surface?: string
}[] = [
  {
    name: 'ceiling',
    aim: [0, 2.5, 0.6],
    boards: [rect([0, 2.5, 0], [1.75, 0, 0], [0, 0, 2])],
    surface: 'ceiling',
  },
  {
    name: 'wall',
    aim: [1.75, 1.5, 0.7],
    boards: [rect([1.75, 1.25, 0], [0, 0, 2], [0, 1.25, 0])],
    surface: 'right',
  },
  {
    name: 'V-flat',
    aim: [-1.5, 1.3, 0.5],
    boards: [
      rect([HINGE[0] + SIDE, 1, HINGE[2] + SIDE], [-SIDE, 0, -SIDE], [0, 1, 0]),
      rect([HINGE[0] + SIDE, 1, HINGE[2] - SIDE], [SIDE, 0, -SIDE], [0, 1, 0]),
    ],
  },
]
export const BOUNCED_RHO = 0.8
export const FLASH_AT: Vec3 = [0, 1.35, 1.6]
/** n of a flash that covers 60° to half its light. */
export const FLASH_EXPONENT = Math.log(0.5) / Math.log(Math.cos(Math.PI / 6))
/** Before a face that looks at the lens, and its cheek. */
export const FACE_PLACES: readonly { readonly point: Vec3; readonly normal: Vec3 }[] = [
  { point: [0, 1.2, 0], normal: [0, 0.28, 0.96] },
  { point: [0.05, 1.15, 0.03], normal: [0.6, 0, 0.8] },
  { point: [-0.05, 1.15, 0.03], normal: [-0.6, 0, 0.8] },
]
