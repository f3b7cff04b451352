import { ClampToEdgeWrapping, DataTexture, FloatType, NearestFilter, RGBAFormat } from 'three'
import type { Vec3 } from '../space'

/** Records of vec4: one row a record. */
export class Records {
  readonly data: Float32Array

  constructor(
    readonly columns: number,
    readonly rows: number,
  ) {
    this.data = new Float32Array(columns * rows * 4)
  }

  set(row: number, column: number, xyz: Vec3, w = 0): void {
    if (row >= this.rows || column >= this.columns)
      throw new Error(`render.Records: no place (${row}, ${column}) in ${this.rows} × ${this.columns}`)
    this.data.set([xyz[0], xyz[1], xyz[2], w], (row * this.columns + column) * 4)
  }

  set4(row: number, column: number, [x, y, z, w]: readonly [number, number, number, number]): void {
    this.set(row, column, [x, y, z], w)
  }
}

/** Records as a float texture: one RGBA32F texel a column. */
export class Table extends Records {
  readonly texture: DataTexture

  constructor(columns: number, rows: number) {
    super(columns, rows)
    this.texture = new DataTexture(this.data, columns, rows, RGBAFormat, FloatType)
    this.texture.minFilter = this.texture.magFilter = NearestFilter
    this.texture.wrapS = this.texture.wrapT = ClampToEdgeWrapping
    this.texture.needsUpdate = true
  }

  dispose(): void {
    this.texture.dispose()
  }
}

const STRIP = 1024

/** A long list of RGBA32F values, folded into rows of 1024; the shader's twin is listed in tables.glsl. */
export function strip(values: Float32Array): DataTexture {
  const rows = Math.max(1, Math.ceil(values.length / 4 / STRIP))
  const padded = new Float32Array(STRIP * rows * 4)
  padded.set(values)
  const texture = new DataTexture(padded, STRIP, rows, RGBAFormat, FloatType)
  texture.minFilter = texture.magFilter = NearestFilter
  texture.needsUpdate = true
  return texture
}
