import type { Vec3 } from '../space'
import { fluxByZones } from './photometricFile'
import type { Candela, Degrees } from './units'

/**
 * Measured intensity of a luminaire over all directions, as LM-63 type C and EULUMDAT count them: an angle from straight down
 * (its axis) and a plane round it. Planes ascend from 0° to 360°, both ends there and alike; angles ascend within 0° to 180°.
 */
export interface IntensityTable {
  readonly planesDeg: readonly Degrees[]
  readonly anglesDeg: readonly Degrees[]
  /** One row a plane, one number an angle, cd. */
  readonly candela: readonly (readonly Candela[])[]
}

const DEG = Math.PI / 180

/** Linear in both angles; dark beyond the first and the last angle of the table. */
export function intensityAt(
  { planesDeg, anglesDeg, candela }: IntensityTable,
  plane: Degrees,
  angle: Degrees,
): Candela {
  if (angle < anglesDeg[0]! || angle > anglesDeg[anglesDeg.length - 1]!) return 0
  const turn = ((plane % 360) + 360) % 360
  const [p, s] = bracket(planesDeg, turn)
  const [a, t] = bracket(anglesDeg, angle)
  const along = (row: readonly Candela[]) => row[a]! + t * ((row[a + 1] ?? row[a]!) - row[a]!)
  const first = along(candela[p]!)
  return first + s * (along(candela[p + 1] ?? candela[p]!) - first)
}

/** The entry at or before a value, and the share of the way to the next. */
function bracket(ascending: readonly number[], value: number): readonly [number, number] {
  let [low, high] = [0, ascending.length - 1]
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (ascending[middle]! <= value) low = middle
    else high = middle
  }
  if (high === low) return [low, 0]
  return [low, (value - ascending[low]!) / (ascending[high]! - ascending[low]!)]
}

/** In a unit direction of the luminaire's own frame: +z is its axis, plane 0° lies along +x, 90° along +y. */
export const intensityTowards = (table: IntensityTable, [x, y, z]: Vec3): Candela =>
  intensityAt(table, Math.atan2(y, x) / DEG, Math.acos(Math.max(-1, Math.min(1, z))) / DEG)

/** Near field: the opening is evenly bright and shines everywhere as the table says, L = I/(A·cosθ); 0 along its plane. */
export const openingLuminance = (table: IntensityTable, areaM2: number, direction: Vec3): number =>
  Math.abs(direction[2]) < 1e-6 ? 0 : intensityTowards(table, direction) / (areaM2 * Math.abs(direction[2]))

/** lm: zonal method [IESHandbook], the planes weighted with the half steps to their neighbours. */
export function fluxOfTable({ planesDeg, anglesDeg, candela }: IntensityTable): number {
  const mean = anglesDeg.map((_, a) => {
    let sum = 0
    for (let p = 0; p + 1 < planesDeg.length; p++)
      sum += ((candela[p]![a]! + candela[p + 1]![a]!) / 2) * (planesDeg[p + 1]! - planesDeg[p]!)
    return sum / 360
  })
  return fluxByZones(
    anglesDeg.map((angle) => angle * DEG),
    mean,
  )
}

/**
 * A table given for part of the circle, made whole by its symmetry. planes: as measured, ascending: one, 0° to 90°, to
 * 180° or round the circle, or 90° to 270°. null: none of these.
 */
export function wholeCircle(
  planesDeg: readonly Degrees[],
  candela: readonly (readonly Candela[])[],
): Pick<IntensityTable, 'planesDeg' | 'candela'> | null {
  const [first, last] = [planesDeg[0]!, planesDeg[planesDeg.length - 1]!]
  if (planesDeg.length === 1) return { planesDeg: [0, 360], candela: [candela[0]!, candela[0]!] }
  const rows = planesDeg.map((plane, i) => ({ plane, row: candela[i]! }))
  if (first === 0 && last === 90) return closed(mirrored(mirrored(rows, 180), 360))
  if (first === 0 && last === 180) return closed(mirrored(rows, 360))
  if (first === 90 && last === 270) return closed(aboutSide(rows))
  if (first === 0 && last > 180 && last <= 360) return closed(rows)
  return null
}

interface Row {
  readonly plane: Degrees
  readonly row: readonly Candela[]
}

/** Planes beyond the last one repeat those before it: plane p and sum − p are alike. */
const mirrored = (rows: readonly Row[], sum: Degrees): readonly Row[] => [
  ...rows,
  ...[...rows]
    .reverse()
    .filter(({ plane }) => sum - plane > rows[rows.length - 1]!.plane)
    .map(({ plane, row }) => ({ plane: sum - plane, row })),
]

/** From 90° to 270°: plane p and 180° − p are alike. */
function aboutSide(rows: readonly Row[]): readonly Row[] {
  const all = [...rows, ...rows.map(({ plane, row }) => ({ plane: (((180 - plane) % 360) + 360) % 360, row }))]
  const ascending = all.sort((a, b) => a.plane - b.plane)
  return ascending.filter(({ plane }, i) => i === 0 || plane > ascending[i - 1]!.plane)
}

function closed(rows: readonly Row[]): Pick<IntensityTable, 'planesDeg' | 'candela'> {
  const open = rows[0]!.plane === 0 ? rows : [{ ...rows[0]!, plane: 0 }, ...rows]
  const isClosed = open[open.length - 1]!.plane === 360
  const all = isClosed ? open : [...open, { plane: 360, row: open[0]!.row }]
  return { planesDeg: all.map(({ plane }) => plane), candela: all.map(({ row }) => row) }
}
