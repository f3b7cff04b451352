/** Metres, right-handed, y up. Every vector is three plain numbers. */
export type Vec3 = readonly [number, number, number]

/** Where a thing stands and how it is turned. The axes are unit vectors, right-handed: x × y = z. */
export interface Frame {
  readonly origin: Vec3
  readonly x: Vec3
  readonly y: Vec3
  /** Out of the lit or front side. */
  readonly z: Vec3
}

/** A triangle mesh. positions and normals: 3 floats a vertex, metres and unit; indices: 3 a triangle. */
export interface Mesh {
  readonly positions: Float32Array
  readonly normals: Float32Array
  readonly indices: Uint32Array
}

/** A flat rectangle: centre and two half edges at right angles. Its front normal is halfU × halfV, normalised. */
export interface Rect {
  readonly centre: Vec3
  readonly halfU: Vec3
  readonly halfV: Vec3
}
