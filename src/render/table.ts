import { ClampToEdgeWrapping, DataTexture, FloatType, NearestFilter, RGBAFormat } from 'three'
import type { Vec3 } from '../space'

/** A float texture used as a table of records: one row a record, one RGBA32F texel a column. */
export class Table {
  readonly texture: DataTexture
  readonly data: Float32Array

  constructor(
    readonly columns: number,
    readonly rows: number,
  ) {
    this.data = new Float32Array(columns * rows * 4)
    this.texture = new DataTexture(this.data, columns, rows, RGBAFormat, FloatType)
    this.texture.minFilter = this.texture.magFilter = NearestFilter
    this.texture.wrapS = this.texture.wrapT = ClampToEdgeWrapping
    this.texture.needsUpdate = true
  }

  set(row: number, column: number, xyz: Vec3, w = 0): void {
    if (row >= this.rows || column >= this.columns)
      throw new Error(`render.Table: no texel (${row}, ${column}) in ${this.rows} × ${this.columns}`)
    this.data.set([xyz[0], xyz[1], xyz[2], w], (row * this.columns + column) * 4)
  }

  upload(): void {
    this.texture.needsUpdate = true
  }

  dispose(): void {
    this.texture.dispose()
  }
}

const STRIP = 1024

/** A long list of RGBA32F values, folded into rows of 1024; the shader's twin is stripTexel in tables.glsl. */
export function strip(values: Float32Array): DataTexture {
  const rows = Math.max(1, Math.ceil(values.length / 4 / STRIP))
  const padded = new Float32Array(STRIP * rows * 4)
  padded.set(values)
  const texture = new DataTexture(padded, STRIP, rows, RGBAFormat, FloatType)
  texture.minFilter = texture.magFilter = NearestFilter
  texture.needsUpdate = true
  return texture
}
