import { BufferAttribute, BufferGeometry } from 'three'
import type { RigFigure, RigStrands, StrandCoat } from '../rig'
import { hash32 } from '../space'
import type { SeenObject } from './objects'

/** Numbers a vertex of each attribute. */
const SIZES = {
  position: 3,
  normal: 3,
  coat: 4,
  object: 1,
  /** Tangent; half width, negative on the left edge. */
  strand: 4,
  /** Coat of the skin at the root: what shows through where a line is thinner than a pixel. */
  under: 4,
  /** Of a hair its own number from 0 to 1, 2 more if it is laid on what is under it; negative: a line. */
  thread: 1,
  /** Of what is lit as hair: along it from root to tip, else zero; and its place among hairs, mm. */
  combed: 3,
  grain: 3,
  corners: 3,
  weights: 3,
  root: 1,
  /** How far it follows the head. */
  headWeight: 1,
} as const
type Name = keyof typeof SIZES

/** Stream of their numbers. */
const THREADS = 611
const TONES = 612
/** So far off the grain at its root a wisp has its own: it belongs to the lock that it lies on. */
const GRAIN_MM = 5
/** Growth of single hairs: all of each. */
const DENSE = 9

/** Those that follow the gaze, or the rest, wisps included. */
export type StrandGroup = 'withLids' | 'withHead'

/**
 * Ribbons of all sitters' strands of a group, two vertices a point. figures: their geometry, from which each takes coat and
 * carried light of the skin at its root.
 */
export function strandGeometry(
  objects: readonly SeenObject[],
  figures: BufferGeometry,
  group: StrandGroup,
): BufferGeometry {
  const owners = ownersOf(objects, group)
  const points = owners.reduce((sum, { strands }) => sum + strands.halfWidthsM.length, 0)
  const spans = owners.reduce((sum, { strands }) => sum + strands.halfWidthsM.length - strands.kinds.length, 0)
  const ribbons = new Ribbons(figures, 2 * points, 6 * spans)
  for (const owner of owners) ribbons.add(owner)
  return ribbons.geometry()
}

/** The same strands with other gazes, or of other shapes: only places and directions are written anew. */
export function moveStrands(geometry: BufferGeometry, objects: readonly SeenObject[], group: StrandGroup): void {
  const [position, normal, strand, combed] = MOVED.map((name) => geometry.getAttribute(name).array)
  let vertex = 0
  for (const { strands, coats } of ownersOf(objects, group)) {
    const { positions, normals, tangents, starts, kinds } = strands
    kinds.forEach((kind, one) => {
      const isHair = isHairCoat(coats[kind])
      for (let i = starts[one]; i < starts[one + 1]; i++)
        for (let side = 0; side < 2; side++, vertex++)
          for (let k = 0; k < 3; k++) {
            position[vertex * 3 + k] = positions[i * 3 + k]
            normal[vertex * 3 + k] = normals[i * 3 + k]
            strand[vertex * 4 + k] = tangents[i * 3 + k]
            if (isHair) combed[vertex * 3 + k] = tangents[i * 3 + k]
          }
    })
  }
  for (const name of MOVED) geometry.getAttribute(name).needsUpdate = true
}
const MOVED = ['position', 'normal', 'strand', 'combed'] as const

/** Lit as hair of the head, by its strand. What is laid on skin is lit as that, or it shines out of it as dots. */
const isHairCoat = ({ roughness, between, laidIn }: StrandCoat): boolean =>
  roughness > 0 && between === undefined && !laidIn

interface Owner {
  readonly strands: RigStrands[keyof RigStrands]
  readonly coats: NonNullable<RigFigure['strandCoats']>
  /** Row of the part that they are tied to in the object table, and its first vertex in the figures' geometry. */
  readonly row: number
  readonly first: number
  /** Row of the hair, or of the skin where there is none. */
  readonly hairRow: number
}

function ownersOf(objects: readonly SeenObject[], group: StrandGroup): readonly Owner[] {
  const owners: Owner[] = []
  let first = 0
  objects.forEach((object, i) => {
    if (object.kind !== 'part') return
    const { strands, strandCoats: coats } = object.figure
    const { name } = object.part
    const tied = name === 'skin' ? group : name === 'hair' && group === 'withHead' ? 'onHair' : null
    if (tied && strands && coats)
      owners.push({
        strands: strands[tied],
        coats,
        row: i + 1,
        first,
        hairRow: hairRow(objects, object.figure) || i + 1,
      })
    first += object.part.part.headWeight.length
  })
  return owners
}

/** 0: none. */
const hairRow = (objects: readonly SeenObject[], figure: RigFigure): number =>
  1 + objects.findIndex((one) => one.kind === 'part' && one.figure === figure && one.part.name === 'hair')

/** How much other hair hides of the skin under one that is laid on it. */
const HIDDEN = {
  /** By its own number, less towards its tip, or the brow ends at an edge. */
  brow: (thread: number, tip: number): number => 0.97 * (0.7 + 0.3 * thread) * (1 - 0.5 * tip),
  /** In the mean, where hair has thinned out to that growth; roots stand closer than the painted streaks tell. */
  hairline: (_thread: number, _tip: number, growth: number): number => Math.min(1, Math.max(0, 0.75 + 0.5 * growth)),
}

/** What a point of a strand is drawn with. */
interface Along {
  readonly coat: StrandCoat
  readonly thread: number
  /** From 0 at the root to 1. */
  readonly tip: number
  /** Of the albedo. */
  readonly shade: number
  /** In the grain: across and along. */
  readonly acrossMm: number
  readonly alongMm: number
}
/** From point to point, as the grain counts. */
const STEP_MM = 8

class Ribbons {
  private readonly values: Readonly<Record<Name, Float32Array>>
  private readonly indices: Uint32Array
  private vertex = 0
  private index = 0

  constructor(
    private readonly figures: BufferGeometry,
    vertexCount: number,
    indexCount: number,
  ) {
    const entries = Object.entries(SIZES).map(([name, size]) => [name, new Float32Array(vertexCount * size)])
    this.values = Object.fromEntries(entries)
    this.indices = new Uint32Array(indexCount)
  }

  add(owner: Owner): void {
    const { starts, kinds } = owner.strands
    kinds.forEach((kind, strand) => {
      const coat = owner.coats[kind]
      const thread = coat.between === undefined ? hash32(strand, THREADS) / 2 ** 32 : -1
      const [first, last] = [starts[strand], starts[strand + 1] - 1]
      const [across, along] = this.grainAt(owner.first + owner.strands.roots[first])
      const [darkest, lightest] = coat.tones ?? [1, 1]
      const tone = darkest + ((lightest - darkest) * hash32(strand, TONES)) / 2 ** 32
      const acrossMm = across + thread * GRAIN_MM
      for (let i = first; i <= last; i++) {
        const tip = (i - first) / (last - first)
        const shade = tone * (1 - (1 - (coat.rootShade ?? 1)) * (1 - tip))
        const at = { coat, thread, tip, shade, acrossMm, alongMm: along + (i - first) * STEP_MM }
        for (const side of [-1, 1]) this.edge(owner, i, side, at)
        if (i > first) this.span()
      }
    })
  }

  private edge(
    { strands, row, hairRow, first }: Owner,
    i: number,
    side: number,
    { coat, thread, tip, shade, acrossMm, alongMm }: Along,
  ): void {
    const { values: to, vertex, figures } = this
    const root = first + strands.roots[i]
    for (let k = 0; k < 3; k++) {
      to.position[vertex * 3 + k] = strands.positions[i * 3 + k]
      to.normal[vertex * 3 + k] = strands.normals[i * 3 + k]
      to.strand[vertex * 4 + k] = strands.tangents[i * 3 + k]
    }
    to.strand[vertex * 4 + 3] = side * strands.halfWidthsM[i]
    for (let k = 0; k < 3; k++) to.coat[vertex * 4 + k] = shade * coat.albedo[k]
    to.coat[vertex * 4 + 3] = coat.roughness
    const isHair = isHairCoat(coat)
    to.object[vertex] = isHair ? hairRow : row
    if (isHair) {
      to.combed.set(strands.tangents.subarray(i * 3, i * 3 + 3), vertex * 3)
      to.grain.set([acrossMm + side * 1000 * strands.halfWidthsM[i], alongMm, DENSE], vertex * 3)
    }
    to.root[vertex] = root
    to.headWeight[vertex] = strands.headWeights[i]
    to.thread[vertex] = coat.laidIn ? 2 + thread : thread
    const from = [
      ['under', 'coat', 4],
      ['corners', 'corners', 3],
      ['weights', 'weights', 3],
    ] as const
    for (const [name, of, size] of from) {
      const { array } = figures.getAttribute(of)
      for (let k = 0; k < size; k++) to[name][vertex * size + k] = array[root * size + k]
    }
    // Under a hair that is laid on lies skin as far as it is bare there, and other hair.
    const grown = coat.laidIn ? HIDDEN[coat.laidIn](thread, tip, this.grainAt(root)[2]) : 0
    for (let k = 0; k < 3; k++) {
      const at = vertex * 4 + k
      to.under[at] += (coat.albedo[k] - to.under[at]) * grown
      to.under[at] *= coat.between ?? 1
    }
    this.vertex++
  }

  private grainAt(root: number): Float32Array {
    return (this.figures.getAttribute('grain').array as Float32Array).subarray(root * 3, root * 3 + 3)
  }

  /** Between the last two points. */
  private span(): void {
    const v = this.vertex
    this.indices.set([v - 4, v - 3, v - 1, v - 4, v - 1, v - 2], this.index)
    this.index += 6
  }

  geometry(): BufferGeometry {
    const geometry = new BufferGeometry()
    for (const [name, size] of Object.entries(SIZES))
      geometry.setAttribute(name, new BufferAttribute(this.values[name as Name], size))
    geometry.setIndex(new BufferAttribute(this.indices, 1))
    return geometry
  }
}
