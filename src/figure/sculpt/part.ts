/** One part from its field: nets, projection, simplification, refinement, mirroring, normals, paint. Millimetres. */
import type { Grid } from './grid'
import { surfaceNets } from './nets'
import { REFINE_PASSES, refine } from './refine'
import type { Field } from './solids'
import { fieldNormals, projectAll } from './surface'
import { dropUnused, largestComponent, mirrored, separated } from './topology'
import { asStored } from './writeGlb'

/**
 * Passed in, so that this room draws in no package: triangles over the same vertices, about targetIndexCount of them.
 * attributes: attributeSize numbers a vertex, each counted with its weight beside the geometric error.
 */
export type Simplify = (
  indices: Uint32Array,
  positions: Float32Array,
  attributes: Float32Array,
  weights: readonly number[],
  targetIndexCount: number,
  evenTriangles: boolean,
) => Uint32Array

type Paint = (x: number, y: number, z: number) => readonly [number, number, number]

export interface Recipe {
  readonly field: Field
  readonly grid: Grid
  /** See surfaceNets. */
  readonly reach: number
  readonly triangles: number
  /** Central difference of normals, mm. */
  readonly normalStep: number
  readonly paint: Paint | null
  /** Laid over the paint once the triangles are made: it asks for none of its own. */
  readonly glaze?: Paint
  /** Magnifies what the simplifier should keep. */
  readonly warp: ((x: number, y: number, z: number) => readonly [number, number, number]) | null
  /** Weights of normal and paint in the simplifier's error. */
  readonly normalWeight: number
  readonly paintWeight: number
  readonly evenTriangles: boolean
  /** Of flips and relaxation after simplification; REFINE_PASSES if left out. */
  readonly refinePasses?: number
}

export interface SculptedPart {
  readonly positions: Float64Array
  readonly normals: Float32Array
  readonly tint: Float32Array
  readonly indices: Uint32Array
}

export function sculptPart(recipe: Recipe, simplify: Simplify): SculptedPart {
  const { field, grid, normalStep } = recipe
  const raw = surfaceNets(field, grid, recipe.reach)
  projectAll(field, raw.positions, 0.6, grid.half)
  const solid = largestComponent(raw)
  const coarse = simplified(recipe, solid.positions, solid.indices, simplify)
  const coarseNormals = fieldNormals(field, coarse.positions, normalStep, grid.half)
  const fair = refine(field, coarse, coarseNormals, grid.half, recipe.refinePasses ?? REFINE_PASSES)
  const whole = grid.half ? mirrored(fair) : fair
  const glaze = painted(whole.positions, recipe.glaze ?? null)
  const places = normalStep < FINE_NORMALS ? asStored(whole.positions) : whole.positions
  return {
    ...whole,
    normals: fieldNormals(field, places, normalStep, grid.half),
    tint: painted(whole.positions, recipe.paint).map((value, i) => value * glaze[i]),
  }
}

/** Normals taken over less, mm, turn by a degree within the 7 µm that a file moves a vertex, as at the margins of the lids. */
const FINE_NORMALS = 0.4

function painted(positions: Float64Array, paint: Recipe['paint']): Float32Array {
  const tint = new Float32Array(positions.length).fill(1)
  if (paint)
    for (let at = 0; at < positions.length; at += 3)
      tint.set(paint(positions[at], positions[at + 1], positions[at + 2]), at)
  return tint
}

function simplified(recipe: Recipe, positions: Float64Array, indices: Uint32Array, simplify: Simplify) {
  const target = Math.floor(recipe.triangles / (recipe.grid.half ? 2 : 1)) * 3
  if (target >= indices.length) return { positions, indices }
  const normals = fieldNormals(recipe.field, positions, recipe.normalStep, recipe.grid.half)
  const tint = painted(positions, recipe.paint)
  const n = positions.length / 3
  const warped = Float32Array.from(positions)
  const attributes = new Float32Array(n * 6)
  for (let v = 0; v < n; v++) {
    const at = v * 3
    attributes.set(normals.subarray(at, at + 3), v * 6)
    attributes.set(tint.subarray(at, at + 3), v * 6 + 3)
    if (recipe.warp) warped.set(recipe.warp(positions[at], positions[at + 1], positions[at + 2]), at)
  }
  const { normalWeight: w, paintWeight: c } = recipe
  const kept = simplify(indices, warped, attributes, [w, w, w, c, c, c], target, recipe.evenTriangles)
  return separated(dropUnused(positions, kept))
}
