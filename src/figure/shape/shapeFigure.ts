/** The sitter in another shape: every part, place and pivot of the first sitter moved by one displacement of space. */
import type { FigureAsset, FigurePart, Landmark, LandmarkName } from '../types'
import { Deformation } from './deform'
import { AVERAGE_SHAPE, type FigureShape, SHAPE_FIELD_NAMES, ShapeError } from './fields'

const MM = 1000
/** Of the differences that give the displacement's slopes, mm. */
const SLOPE_STEP = 0.05
/** Least volume that a piece of skin may keep: less would fold it. */
const LEAST_VOLUME = 0.08

/**
 * The same vertices, triangles, proxies, paint and weights; other positions, normals, places and pivot. asset: the first
 * sitter, as readFigureAsset or sculptFigure gives it. The average shape gives that very asset back. Throws ShapeError for a
 * field outside its range, and where fields together would fold the skin.
 */
export function shapeFigure(asset: FigureAsset, shape: FigureShape): FigureAsset {
  if (SHAPE_FIELD_NAMES.every((name) => shape[name] === AVERAGE_SHAPE[name])) return asset
  const deformation = Deformation.of(shape)
  const mover = new Mover(deformation)
  return {
    ...asset,
    parts: asset.parts.map((part) =>
      part.name === 'eyeLeft' || part.name === 'eyeRight' ? movedEye(part, deformation) : mover.part(part),
    ),
    landmarks: Object.fromEntries(
      Object.entries(asset.landmarks).map(([name, place]) => [name, mover.landmark(place)]),
    ) as Record<LandmarkName, Landmark>,
    headPivot: mover.point(asset.headPivot),
  }
}

/** The ball keeps its size in every shape: an eye of seven years is within a twentieth of a grown one (from memory). */
function movedEye(part: FigurePart, deformation: Deformation): FigurePart {
  const shift = deformation.eyeShift / MM
  const side = part.name === 'eyeLeft' ? shift : -shift
  const positions = part.mesh.positions.map((v, i) => (i % 3 === 0 ? v + side : v))
  return { ...part, mesh: { ...part.mesh, positions } }
}

type Triple = [number, number, number]

class Mover {
  private readonly here = new Float64Array(12)
  private readonly turned = new Float64Array(3)
  private mayFold = false

  constructor(private readonly deformation: Deformation) {}

  point([x, y, z]: readonly [number, number, number]): Triple {
    this.deformation.move(x * MM, y * MM, z * MM, this.here)
    return [this.here[0] / MM, this.here[1] / MM, this.here[2] / MM]
  }

  part(part: FigurePart): FigurePart {
    // Hair and headwear stand out from the head, where a displacement may fold what no skin is in.
    this.mayFold = part.name === 'hair' || part.name === 'headwear'
    const { positions: from, normals, indices } = part.mesh
    const positions = new Float32Array(from.length)
    const turned = new Float32Array(from.length)
    const combed = part.combed?.slice()
    for (let i = 0; i < from.length; i += 3) {
      this.frame(from[i] * MM, from[i + 1] * MM, from[i + 2] * MM)
      for (let k = 0; k < 3; k++) positions[i + k] = this.here[k] / MM
      this.turn(normals[i], normals[i + 1], normals[i + 2])
      for (let k = 0; k < 3; k++) turned[i + k] = this.turned[k]
      if (combed) this.carry(combed, i)
    }
    return { ...part, mesh: { positions, normals: turned, indices }, combed }
  }

  landmark(place: Landmark): Landmark {
    this.mayFold = false
    const [x, y, z] = place.position
    this.frame(x * MM, y * MM, z * MM)
    const { here } = this
    const position: Triple = [here[0] / MM, here[1] / MM, here[2] / MM]
    this.turn(...place.normal)
    return { ...place, position, normal: [this.turned[0], this.turned[1], this.turned[2]] }
  }

  /** The moved point, then the moved edges of a small corner at it. */
  private frame(x: number, y: number, z: number): void {
    const { deformation, here } = this
    deformation.move(x, y, z, here)
    // Away from the plane of symmetry, so that both halves see mirrored differences.
    const side = x < 0 ? -SLOPE_STEP : SLOPE_STEP
    deformation.move(x + side, y, z, here, 3)
    deformation.move(x, y + SLOPE_STEP, z, here, 6)
    deformation.move(x, y, z + SLOPE_STEP, here, 9)
    for (let e = 3; e < 12; e++) here[e] = (here[e] - here[e % 3]) / (e < 6 ? side : SLOPE_STEP)
  }

  /** A normal goes with the cofactors of the slopes: it stays square to every edge in its surface. */
  private turn(nx: number, ny: number, nz: number): void {
    const h = this.here
    const px = h[7] * h[11] - h[8] * h[10]
    const py = h[8] * h[9] - h[6] * h[11]
    const pz = h[6] * h[10] - h[7] * h[9]
    if (!this.mayFold && h[3] * px + h[4] * py + h[5] * pz < LEAST_VOLUME) this.refuse()
    const x = nx * px + ny * (h[10] * h[5] - h[11] * h[4]) + nz * (h[4] * h[8] - h[5] * h[7])
    const y = nx * py + ny * (h[11] * h[3] - h[9] * h[5]) + nz * (h[5] * h[6] - h[3] * h[8])
    const z = nx * pz + ny * (h[9] * h[4] - h[10] * h[3]) + nz * (h[3] * h[7] - h[4] * h[6])
    const size = Math.hypot(x, y, z)
    this.turned[0] = x / size
    this.turned[1] = y / size
    this.turned[2] = z / size
  }

  /** A direction in the surface goes with the slopes themselves. */
  private carry(d: Float32Array, i: number): void {
    const h = this.here
    const moved = [0, 1, 2].map((k) => h[3 + k] * d[i] + h[6 + k] * d[i + 1] + h[9 + k] * d[i + 2])
    const size = Math.hypot(...moved) || 1
    for (let k = 0; k < 3; k++) d[i + k] = moved[k] / size
  }

  private refuse(): never {
    const at = [...this.here.subarray(0, 3)].map((v) => v.toFixed(0)).join(', ')
    const expected = 'lengths that one head can have together'
    throw new ShapeError('lengths', expected, `skin folded at [${at}] mm`, 'move them nearer to a preset')
  }
}
