import { BufferGeometry, GLBufferAttribute, Sphere, Vector3 } from 'three'
import type { Carriage, PosedPart, SeenObject } from './objects'

/** What the card poses, three numbers a vertex: as a place or as a direction of the head's frame, then of the room. */
export const POSED = ['position', 'normal', 'combed'] as const
export type PosedName = (typeof POSED)[number]

/** WebGL's FLOAT, and its bytes. */
const FLOAT = 0x1406
const FLOAT_BYTES = 4

/** Vertices that go with one sitter. */
interface Span {
  readonly first: number
  readonly count: number
  readonly carriage: Carriage
}

export interface FigurePart {
  readonly part: PosedPart
  readonly carriage: Carriage
}

/** Sitters' parts one after another, before any pose; PosePass fills in where they are in the room. */
export class SitterGeometry extends BufferGeometry {
  /** Before the pose, but with eyes and lids turned. */
  readonly atRest: Readonly<Record<PosedName, Float32Array>>
  readonly headWeight: Float32Array
  /** What was written into atRest since the card has it, as first number and count. */
  written: { readonly name: PosedName; readonly from: number; readonly count: number }[] = []
  spans: readonly Span[] = []
  private parts: readonly PosedPart[] = []

  constructor(readonly vertexCount: number) {
    super()
    // three cannot work it out from what only the card knows.
    this.boundingSphere = new Sphere(new Vector3(), Number.POSITIVE_INFINITY)
    const list = () => new Float32Array(3 * vertexCount)
    this.atRest = { position: list(), normal: list(), combed: list() }
    this.headWeight = new Float32Array(vertexCount)
    for (const name of POSED)
      this.setAttribute(name, new GLBufferAttribute(null as never, FLOAT, 3, FLOAT_BYTES, vertexCount) as never)
  }

  /** Of the same sitters, in whatever pose and shape. */
  take(figures: readonly FigurePart[]): void {
    let first = 0
    const spans: Span[] = []
    figures.forEach(({ part, carriage }, i) => {
      const { rest, part: own } = part
      const before = this.parts[i]
      const count = own.headWeight.length
      // The same in every pose and shape.
      if (!before) this.headWeight.set(own.headWeight, first)
      if (before?.rest.positions !== rest.positions) this.write('position', rest.positions, first)
      if (before?.rest.normals !== rest.normals) this.write('normal', rest.normals, first)
      if (own.combed && before?.part.combed !== own.combed) this.write('combed', own.combed, first)
      const last = spans.at(-1)
      if (last?.carriage === carriage) spans[spans.length - 1] = { ...last, count: last.count + count }
      else spans.push({ first, count, carriage })
      first += count
    })
    this.parts = figures.map(({ part }) => part)
    this.spans = spans
  }

  private write(name: PosedName, values: Float32Array, vertex: number): void {
    this.atRest[name].set(values, 3 * vertex)
    this.written.push({ name, from: 3 * vertex, count: values.length })
  }
}

/** Parts of the sitters among what is seen, with how each is carried into the room. */
export const figureParts = (objects: readonly SeenObject[]): readonly FigurePart[] =>
  objects.flatMap((object) =>
    object.kind === 'part' ? [{ part: object.part, carriage: object.figure.posed.carriage }] : [],
  )
