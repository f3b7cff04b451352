import type { RigSource } from '../rig'
import { addScaled, dot, type Frame, frameTowards, pointToWorld, scale, subtract, type Vec3 } from '../space'
import type { BodyMeaning } from './bodies'
import { litSources, type MeterScene, type Probe } from './scene'
import { Shining } from './shining'

/**
 * The half-room before a piece of skin, drawn so that area times luminance is the light that falls there: every direction
 * of the hemisphere over the skin, dropped square onto the skin's plane (Nusselt's analogue, W. Nusselt, Z. VDI 72, 1928).
 * The unit disc: E = ∫ L dA = π · the mean luminance over it.
 */
export interface HalfRoomGrid {
  /** z out of the skin, y as nearly up as can be. Who looks out along z has −x at the right hand. */
  readonly frame: Frame
  /** Square cells along a side; rows from the top, columns from the left of who looks out. */
  readonly side: number
  /** Number in `things` of what fills most of a cell; −1: outside the disc. */
  readonly thing: Int16Array
  /** Of sources alone, mean over the cell: cd·s/m². */
  readonly direct: Float32Array
  readonly things: readonly SeenThing[]
  /** Cells within the disc. */
  readonly cells: number
}

export interface SeenThing {
  /** source: a lit face. gear: unlit parts of a source. nothing: out of the set. */
  readonly kind: 'source' | 'gear' | 'sitter' | 'surface' | 'ball' | 'nothing'
  /** Of the source, sitter, surface or ball; '' for nothing. */
  readonly id: string
  /** Of a sitter: 'skin', 'hair', …; else ''. */
  readonly part: string
  /** Share of the disc, 0 to 1. */
  readonly share: number
  /** Its own light here, or that of sources that show in it: luminous exposure, lx·s, at the set powers. */
  readonly direct: number
}

/** What fills a direction, and how bright its own light is, or what it mirrors of sources, cd·s/m². */
interface Met {
  readonly thing: number
  readonly luminance: number
}

/** Cells where things border on each other are divided so often along a side, cells with a small source more often. */
const BORDER_PARTS = 4
const SMALL_PARTS = 10
/** A source over fewer cells than this is small. */
const SMALL_CELLS = 40
/** Points along a side of a source's face, by which its cells are found. */
const FACE_POINTS = 12
const GOLDEN = (Math.sqrt(5) - 1) / 2

/** Directions of the half-room of a probe, and what is met in them. */
export class HalfRoom {
  readonly frame: Frame
  readonly sources: readonly RigSource[]
  private readonly known: Pick<SeenThing, 'kind' | 'id' | 'part'>[] = []
  private readonly numbers = new Map<number, number>()
  private readonly shining: Shining

  /** Not in the skin: its point must lie a little off it. */
  constructor(
    readonly scene: MeterScene,
    readonly probe: Probe,
  ) {
    this.frame = frameTowards(probe.point, addScaled(probe.point, probe.normal, 1))
    this.sources = litSources(scene.rig)
    this.shining = new Shining(scene, this.sources)
  }

  /** Unit, world: through a place of the disc, −1 to 1 to the right and up; null outside it. */
  direction(right: number, up: number): Vec3 | null {
    const squared = right * right + up * up
    if (squared >= 1) return null
    const { x, y, z } = this.frame
    return addScaled(addScaled(scale(z, Math.sqrt(1 - squared)), x, -right), y, up)
  }

  /** Where a point of the room lies on the disc, to the right and up; null behind the skin. */
  place(point: Vec3): readonly [number, number] | null {
    const way = subtract(point, this.probe.point)
    const far = Math.sqrt(dot(way, way))
    if (dot(way, this.frame.z) <= 0) return null
    return [-dot(way, this.frame.x) / far, dot(way, this.frame.y) / far]
  }

  meet(direction: Vec3): Met {
    const hit = this.scene.caster.nearest(this.probe.point, direction)
    const { luminance, source } = this.shining.along(this.probe.point, direction, hit)
    if (source) return { luminance, thing: this.numberOf('source', source.id, '') }
    return {
      luminance: hit ? this.shining.mirrored(this.probe.point, direction, hit) : 0,
      thing: hit ? this.numberOfBody(hit.bodyIndex) : this.numberOf('nothing', '', ''),
    }
  }

  private numberOfBody(body: number): number {
    const number = this.numbers.get(body) ?? this.numberMeant(this.scene.bodies.meanings[body])
    this.numbers.set(body, number)
    return number
  }

  private numberMeant(meaning: BodyMeaning): number {
    switch (meaning.kind) {
      case 'figure':
        return this.numberOf('sitter', meaning.figure.id, meaning.part.name)
      case 'surface':
        return this.numberOf('surface', meaning.surface.id, '')
      case 'ball':
        return this.numberOf('ball', meaning.ball.id, '')
      case 'gear':
        return this.numberOf('gear', meaning.sourceId, '')
    }
  }

  private numberOf(kind: SeenThing['kind'], id: string, part: string): number {
    const found = this.known.findIndex((one) => one.kind === kind && one.id === id && one.part === part)
    return found >= 0 ? found : this.known.push({ kind, id, part }) - 1
  }

  /** Everything that can be told without a bounce. `side`: cells along a side, more than 7. */
  *grid(side: number): Generator<undefined, HalfRoomGrid> {
    if (!(Number.isInteger(side) && side > 7))
      throw new Error(`meter.HalfRoom.grid: side must be a whole number over 7, got ${side}`)
    const cells = discCells(side)
    const thing = new Int16Array(side * side).fill(-1)
    const direct = new Float32Array(side * side)
    for (const [n, cell] of cells.entries()) {
      const met = this.meet(this.direction(...cellPlace(cell, side, 0.5, 0.5))!)
      thing[cell] = met.thing
      direct[cell] = met.luminance
      if (n % 256 === 255) yield
    }
    const area: number[] = []
    const light: number[] = []
    const parts = this.partsOf(thing, side)
    for (const [n, cell] of cells.entries()) {
      const met =
        parts[cell] > 1 ? this.divided(cell, side, parts[cell]) : [{ thing: thing[cell], luminance: direct[cell] }]
      for (const { thing: number, luminance } of met) {
        area[number] = (area[number] ?? 0) + 1 / met.length
        light[number] = (light[number] ?? 0) + luminance / met.length
      }
      if (met.length > 1) {
        thing[cell] = mostOf(met.map((one) => one.thing))
        direct[cell] = met.reduce((sum, { luminance }) => sum + luminance, 0) / met.length
      }
      if (n % 64 === 63) yield
    }
    const things = this.known.map((one, i) => ({
      ...one,
      share: (area[i] ?? 0) / cells.length,
      direct: (Math.PI * (light[i] ?? 0)) / cells.length,
    }))
    return { frame: this.frame, side, thing, direct, things, cells: cells.length }
  }

  /** Into how many parts along a side each cell is divided. */
  private partsOf(thing: Int16Array, side: number): Uint8Array {
    const parts = new Uint8Array(thing.length)
    for (const cell of discCells(side))
      parts[cell] = neighbours(cell, side).some((next) => thing[next] >= 0 && thing[next] !== thing[cell])
        ? BORDER_PARTS
        : 1
    for (const emitter of this.sources.flatMap(({ emitters }) => emitters)) {
      const under = this.cellsUnder(emitter, side)
      if (under.size < SMALL_CELLS) for (const cell of under) if (thing[cell] >= 0) parts[cell] = SMALL_PARTS
    }
    return parts
  }

  private cellsUnder({ frame, emission }: RigSource['emitters'][number], side: number): ReadonlySet<number> {
    const found = new Set<number>()
    for (let i = 0; i < FACE_POINTS ** 2; i++) {
      const [u, v] = [((i % FACE_POINTS) + 0.5) / FACE_POINTS, (Math.floor(i / FACE_POINTS) + 0.5) / FACE_POINTS]
      for (const point of this.shining.imagesOf(this.probe.point, pointToWorld(frame, emission.at(u, v).point))) {
        const place = this.place(point)
        if (place) found.add(cellAt(place, side))
      }
    }
    return found
  }

  private divided(cell: number, side: number, parts: number): Met[] {
    const met: Met[] = []
    for (let row = 0; row < parts; row++)
      for (let column = 0; column < parts; column++) {
        // Rows shifted by a golden step, as edges in line with the columns would be miscounted.
        const across = (column + ((row * GOLDEN) % 1)) / parts
        const direction = this.direction(...cellPlace(cell, side, across, (row + 0.5) / parts))
        if (direction) met.push(this.meet(direction))
      }
    return met
  }
}

/** Cells whose middle lies within the disc. */
export const discCells = (side: number): readonly number[] =>
  Array.from({ length: side * side }, (_, cell) => cell).filter(
    (cell) => Math.hypot(...cellPlace(cell, side, 0.5, 0.5)) < 1,
  )

/** Place of the disc, −1 to 1 to the right and up, at a share of a cell from its left and its top. */
export const cellPlace = (cell: number, side: number, across: number, down: number): readonly [number, number] => [
  (2 * ((cell % side) + across)) / side - 1,
  1 - (2 * (Math.floor(cell / side) + down)) / side,
]

const cellAt = ([right, up]: readonly [number, number], side: number): number => {
  const index = (value: number) => Math.min(side - 1, Math.floor(((value + 1) / 2) * side))
  return index(-up) * side + index(right)
}

function neighbours(cell: number, side: number): number[] {
  const column = cell % side
  const aside = [-1, 0, 1].filter((step) => column + step >= 0 && column + step < side)
  return [-side, 0, side]
    .flatMap((step) => aside.map((by) => cell + step + by))
    .filter((next) => next >= 0 && next < side * side)
}

function mostOf(numbers: readonly number[]): number {
  const count = (number: number) => numbers.filter((other) => other === number).length
  return numbers.reduce((most, number) => (count(number) > count(most) ? number : most))
}
