import type { Panel } from '../sitting'
import { degrees } from '../space'
import type { TapeRow } from './types'

type Spot = readonly [number, number]

/** An upright edge of a leaf: where it was planned, and where it stands. */
interface End {
  readonly planned: Spot
  readonly built: Spot
}

/** A panel as its ends stand: moved, turned, and a folded one opened or closed about its hinge. spotOf: null where a row was not measured. */
export function panelBuilt(panel: Panel, rows: readonly TapeRow[], spotOf: (row: TapeRow) => Spot | null): Panel {
  const ends = (leaf: string): readonly End[] =>
    rows
      .filter(({ id }) => id === `panel.${leaf}.0` || id === `panel.${leaf}.1`)
      .map((row) => ({ planned: row.at, built: spotOf(row) ?? row.at }))
  const leaves = [ends(panel.id), ends(`${panel.id}.leaf`)].filter((two) => two.length === 2)
  if (leaves.length === 0) return panel
  const [first = 0, second = first] = leaves.map(turned)
  // A hinge stands in the panel's middle, and what has none is its own hinge: both its ends.
  const hinge = leaves.length === 1 ? leaves[0]! : leaves.map(([a, b]) => nearer(panel, a!, b!))
  const [x, y, z] = panel.centreM
  const mean = (of: (end: End) => number) => hinge.reduce((sum, end) => sum + of(end), 0) / hinge.length
  return {
    ...panel,
    centreM: [
      x + mean(({ planned, built }) => built[0] - planned[0]),
      y,
      z + mean(({ planned, built }) => built[1] - planned[1]),
    ],
    turnDeg: within180(panel.turnDeg + (first + second) / 2),
    ...(leaves.length === 2 && { foldDeg: Math.max(0, (panel.foldDeg ?? 0) + first - second) }),
  }
}

/** By how many degrees a leaf was turned, from +z to +x. */
function turned([a, b]: readonly End[]): number {
  const azimuth = (of: 'planned' | 'built') => Math.atan2(b![of][0] - a![of][0], b![of][1] - a![of][1])
  return within180(degrees(azimuth('built') - azimuth('planned')))
}

/** Less than a degree's millionth off is not turned at all, so that what was not measured stays as it was written. */
function within180(angle: number): number {
  const turn = angle - 360 * Math.round(angle / 360)
  return Math.abs(turn) < 1e-6 ? 0 : turn
}

function nearer({ centreM: [x, , z] }: Panel, a: End, b: End): End {
  const far = ({ planned }: End) => Math.hypot(planned[0] - x, planned[1] - z)
  return far(a) < far(b) ? a : b
}
