import { luminanceFromSrgb } from '../photometry'
import { hash32 } from '../space'
import { reflectedAlong } from './bounce'
import { cellPlace, discCells, type HalfRoom, type HalfRoomGrid } from './half-room'

/** What the things of a half-room send back of the sources' light, as far as it was traced. */
export interface HalfRoomBounce {
  /** Paths traced so far. */
  readonly paths: number
  /** A cell: cd·s/m² summed over its paths, and their number. */
  readonly luminance: Float32Array
  readonly counts: Uint16Array
  /** A thing of the grid: cd·s/m² summed over the paths that met it first. */
  readonly byThing: readonly number[]
}

/** Every fourth cell is traced in a pass, so four passes make one path a cell. */
export const PASSES_A_PATH = 4

export const noBounce = ({ side, things }: HalfRoomGrid): HalfRoomBounce => ({
  paths: 0,
  luminance: new Float32Array(side * side),
  counts: new Uint16Array(side * side),
  byThing: things.map(() => 0),
})

/** One pass more: the meter's own paths, one through each fourth cell of the disc, all orders of bounce in it. */
export function* bouncePass(
  room: HalfRoom,
  grid: HalfRoomGrid,
  before: HalfRoomBounce,
  pass: number,
): Generator<undefined, HalfRoomBounce> {
  const { scene, probe, sources } = room
  const luminance = before.luminance.slice()
  const counts = before.counts.slice()
  const byThing = [...before.byThing]
  let paths = 0
  for (const cell of discCells(grid.side)) {
    if (turnOf(cell, grid.side) !== pass % PASSES_A_PATH) continue
    const seed = hash32(cell, 211)
    const index = Math.floor(pass / PASSES_A_PATH)
    const inCell = (salt: number) => hash32(hash32(seed, salt), index) / 2 ** 32
    const direction = room.direction(...cellPlace(cell, grid.side, inCell(1), inCell(2)))
    if (!direction) continue
    paths++
    const sent = reflectedAlong(scene, sources, { point: probe.point, direction }, { index, seed })
    const sum = sources.reduce((all, { axialIntensity }, s) => all + luminanceFromSrgb(sent[s]) * axialIntensity, 0)
    luminance[cell] += sum
    counts[cell]++
    const { thing } = room.meet(direction)
    byThing[thing] = (byThing[thing] ?? 0) + sum
    if (paths % 16 === 0) yield
  }
  return { paths: before.paths + paths, luminance, counts, byThing }
}

/** Squares of two cells by two, each cell in its turn. */
const turnOf = (cell: number, side: number): number => 2 * (Math.floor(cell / side) % 2) + ((cell % side) % 2)

/** Light that a thing sends back here: luminous exposure, lx·s. */
export const bouncedOf = ({ byThing, paths }: HalfRoomBounce, thing: number): number =>
  paths > 0 ? (Math.PI * (byThing[thing] ?? 0)) / paths : 0

/** Cells on each side whose paths are taken together, where they show the same thing: more while there are few paths. */
const reachOf = (pathsACell: number): number => (pathsACell < 2 ? 5 : pathsACell < 8 ? 3 : 2)

/** Luminance of every cell, cd·s/m²: its sources' own, and what is sent back, evened out within each thing. */
export function luminanceOfCells(
  { side, thing, direct, cells }: HalfRoomGrid,
  { luminance, counts, paths }: HalfRoomBounce,
): Float32Array {
  const out = direct.slice()
  const reach = reachOf(paths / cells)
  for (const cell of discCells(side)) {
    const [row, column] = [Math.floor(cell / side), cell % side]
    let [sum, count] = [0, 0]
    for (let r = Math.max(0, row - reach); r <= Math.min(side - 1, row + reach); r++)
      for (let c = Math.max(0, column - reach); c <= Math.min(side - 1, column + reach); c++) {
        const other = r * side + c
        if (thing[other] !== thing[cell]) continue
        const weight = (reach + 1 - Math.abs(r - row)) * (reach + 1 - Math.abs(c - column))
        sum += weight * luminance[other]
        count += weight * counts[other]
      }
    if (count > 0) out[cell] += sum / count
  }
  return out
}
