import { modifierKind } from '../gear'
import { type FixedPoints, fixedPointsOf, lineOf, namesOf, tapesTo } from '../paper'
import { litFaceOutline, nearCheek, type Rig, type RigSource, standingOf } from '../rig'
import type { Sitting } from '../sitting'
import { add, addScaled, distance, dot, subtract, type Vec3 } from '../space'
import type { SheetInput, TapeRow } from './types'

type Spot = readonly [number, number]

/** How near the tape must put a foot back, metres. */
const BACK_M = 0.01
/** From the lens back to the middle of the tripod, as the plan has it. */
const TRIPOD_BACK_M = 0.1

/** How far off the line two tapes alone put a spot, on the side of `side`: two circles about X and Z. */
export function offBy(
  fixed: FixedPoints,
  { fromXM, fromZM }: Pick<TapeRow, 'fromXM' | 'fromZM'>,
  side: number,
): number {
  const { toZM } = lineOf(fixed)
  const along = (fromXM ** 2 - fromZM ** 2 + toZM ** 2) / (2 * toZM)
  return Math.sign(side) * Math.sqrt(Math.max(0, fromXM ** 2 - along ** 2))
}

const STEPS = 8

/**
 * The spot that agrees best with three taped figures, by least squares (Gauss–Newton); null: the two tapes do not meet by
 * more than their ends could be off. along and off are the coordinates of the line through X and Z.
 */
export function spotFrom(
  fixed: FixedPoints,
  { fromXM, fromZM, offM }: Pick<TapeRow, 'fromXM' | 'fromZM' | 'offM'>,
): Spot | null {
  const { along, toZM } = lineOf(fixed)
  const reach = Math.abs(toZM)
  if (fromXM + fromZM < reach - 0.05 || Math.abs(fromXM - fromZM) > reach + 0.05) return null
  let a = (fromXM ** 2 - fromZM ** 2 + toZM ** 2) / (2 * toZM)
  let o = offM
  for (let i = 0; i < STEPS; i++) {
    const dX = Math.hypot(a, o) || 1e-9
    const dZ = Math.hypot(a - toZM, o) || 1e-9
    const rows = [
      [a / dX, o / dX, fromXM - dX],
      [(a - toZM) / dZ, o / dZ, fromZM - dZ],
      [0, 1, offM - o],
    ]
    const sum = (f: (row: number[]) => number) => rows.reduce((total, row) => total + f(row), 0)
    const [aa, ao, oo] = [sum(([p]) => p * p), sum(([p, q]) => p * q), sum(([, q]) => q * q)]
    const [ra, ro] = [sum(([p, , r]) => p * r), sum(([, q, r]) => q * r)]
    const det = aa * oo - ao * ao
    if (!(Math.abs(det) > 1e-12)) break
    a += (oo * ra - ao * ro) / det
    o += (aa * ro - ao * ra) / det
  }
  return [fixed.x[0] + a * along[0] + o * along[1], fixed.x[1] + a * along[1] - o * along[0]]
}

function rowOf(fixed: FixedPoints, id: string, name: string, at: Spot): TapeRow {
  const tapes = tapesTo(fixed, at)
  const cm = (m: number) => Math.round(m * 100) / 100
  const back = spotFrom(fixed, { fromXM: cm(tapes.fromXM), fromZM: cm(tapes.fromZM), offM: cm(tapes.offM) })
  const isNear = back !== null && Math.hypot(back[0] - at[0], back[1] - at[1]) <= BACK_M
  return { id, name, at, ...tapes, digits: isNear ? 2 : 3 }
}

const onFloor = ([x, , z]: Vec3): Spot => [x, z]

/** Whether it has a stand of its own on the floor. */
export const stands = (sitting: Sitting, source: RigSource): boolean => {
  const modifier = sitting.sources.find(({ id }) => id === source.id)?.modifier
  return !source.remote && modifier !== undefined && modifierKind(modifier.kind).onCamera === undefined
}

/** Every foot on the floor: stands, both ends of each panel, tripod, further sitters, test objects. */
export function tapeRows({ sitting, rig }: Pick<SheetInput, 'sitting' | 'rig'>): readonly TapeRow[] {
  const fixed = fixedPointsOf(sitting)
  const { origin, z } = rig.view.frame
  return [
    ...rig.sources
      .filter((source) => stands(sitting, source))
      .map((source) => {
        const { foot, pivot } = standingOf(sitting, rig.view, source)
        // A boom's stand tells nothing of where its lamp hangs: as-built does not go by it.
        return pivot
          ? rowOf(fixed, `boom.${source.id}`, `${source.letter} boom stand`, onFloor(foot))
          : rowOf(fixed, `source.${source.id}`, `${source.letter} stand`, onFloor(foot))
      }),
    ...panelRows(fixed, sitting, rig),
    rowOf(fixed, 'tripod', 'tripod', onFloor(addScaled(origin, z, -TRIPOD_BACK_M))),
    ...rig.figures
      .slice(1)
      .map(({ id, posed }, i) => rowOf(fixed, `sitter.${id}`, `sitter ${i + 2}, eyes`, onFloor(posed.eyeMidpoint))),
    ...sitting.objects.map(({ id, centreM }) =>
      rowOf(fixed, `object.${id}`, namesOf(sitting).get(id) ?? id, onFloor(centreM)),
    ),
  ]
}

/** Both upright edges of each leaf, at the floor. */
function panelRows(fixed: FixedPoints, sitting: Sitting, rig: Rig): readonly TapeRow[] {
  const names = namesOf(sitting)
  return rig.surfaces
    .filter(({ kind }) => kind === 'panel')
    .flatMap(({ id, of, rect }) => {
      const name = sitting.panels.length === 1 ? 'panel' : (names.get(of ?? id) ?? 'panel')
      const ends = [add(rect.centre, rect.halfU), subtract(rect.centre, rect.halfU)]
      // The end nearer to the camera first.
      ends.sort((a, b) => b[2] - a[2])
      const panel = sitting.panels.find((known) => known.id === (of ?? id))
      const edge = (end: Vec3, i: number): string => {
        if (!panel?.foldDeg) return i === 0 ? 'front' : 'back'
        const isHinge = distance(end, panel.centreM) < panel.widthM / 4
        return `leaf ${of ? 2 : 1}, ${isHinge ? 'hinge' : 'wing'}`
      }
      return ends.map((end, i) => rowOf(fixed, `panel.${id}.${i}`, `${name}, ${edge(end, i)}`, onFloor(end)))
    })
}

/** From the nearest point of the rim of each standing source to its near cheek. */
export function rimRows({ sitting, rig }: Pick<SheetInput, 'sitting' | 'rig'>) {
  const [figure] = rig.figures
  return rig.sources
    .filter((source) => stands(sitting, source) && source.role !== 'backdrop')
    .map((source) => {
      const cheek = figure.posed.landmarks[nearCheek(figure, source.frame.origin)].position
      const rim = litFaceOutline(source)
      const m = Math.min(...rim.map((p, i) => distanceToLine(p, rim[(i + 1) % rim.length]!, cheek)))
      return { id: source.id, name: `${source.letter}, nearest rim`, m }
    })
}

/** From a point to the nearest of a straight piece, metres. */
function distanceToLine(a: Vec3, b: Vec3, point: Vec3): number {
  const along = subtract(b, a)
  const share = dot(subtract(point, a), along) / dot(along, along)
  return distance(point, addScaled(a, along, Math.max(0, Math.min(1, share))))
}
