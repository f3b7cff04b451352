import { DataTexture, FloatType, NearestFilter, RedFormat } from 'three'
import type { RigSource } from '../rig'

/**
 * The table of a measured lamp as a texture: an angle a column, a plane a row. Both its faces have the same; null: no such
 * lamp. Throws where a source has two tables, as a program reads one.
 */
export function intensityTexture({ id, emitters }: RigSource): DataTexture | null {
  const grids = new Set(emitters.flatMap(({ emission: { gate } }) => (gate.kind === 'intensities' ? [gate.grid] : [])))
  const [grid] = grids
  if (!grid) return null
  if (grids.size > 1)
    throw new Error(`render.intensityTexture: source ${id}: at most 1 table of intensities, got ${grids.size}`)
  const texture = new DataTexture(grid.values, grid.angles, grid.planes, RedFormat, FloatType)
  texture.minFilter = texture.magFilter = NearestFilter
  texture.needsUpdate = true
  return texture
}
