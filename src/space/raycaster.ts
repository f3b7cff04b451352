import type { Mesh, Rect, Vec3 } from './types'

/** What a ray met. Distances in metres; normal: unit geometric, on the side the ray came from. */
export interface Hit {
  readonly distance: number
  readonly bodyIndex: number
  /** Of a mesh body: triangle and barycentric weights of its corners. */
  readonly triangle: number
  readonly barycentric: Vec3
  readonly normal: Vec3
  /** True when the ray met the back of a one-sided face. */
  readonly fromBehind: boolean
}

/** Passed in wherever rays are needed; implemented once, in rays. Bodies are numbered in the order they were given. */
export interface RayCaster {
  /** True when nothing opaque lies strictly between the two points (both ends pulled in by 0.1 mm). */
  visible(from: Vec3, to: Vec3, ignore?: ReadonlySet<number>): boolean
  nearest(origin: Vec3, direction: Vec3, ignore?: ReadonlySet<number>): Hit | null
}

/** One that can make others, for who must ask of parts of a scene. Meshes of the same `indices` array share their tree's shape. */
export interface CasterOver extends RayCaster {
  over(bodies: readonly Body[]): RayCaster
}

export type Body =
  | { readonly kind: 'mesh'; readonly mesh: Mesh }
  | { readonly kind: 'rectangle'; readonly rect: Rect; readonly oneSided: boolean }
