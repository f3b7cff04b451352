import type { Rgb } from '../photometry'
import type { Rect, Vec3 } from '../space'

/** Opaque parts of gear, in the source's frame; rig moves them into the world. axis of a cap: from the rim plane to the apex. */
export type GearSolid =
  | {
      readonly kind: 'cylinder'
      readonly from: Vec3
      readonly to: Vec3
      readonly radiusM: number
      readonly albedo: Rgb
    }
  | { readonly kind: 'rectangle'; readonly rect: Rect; readonly albedo: Rgb }
  | {
      readonly kind: 'disc'
      readonly centre: Vec3
      readonly normal: Vec3
      readonly radiusM: number
      readonly albedo: Rgb
    }
  | {
      readonly kind: 'cap'
      readonly rimCentre: Vec3
      readonly axis: Vec3
      readonly diameterM: number
      readonly depthM: number
      readonly albedo: Rgb
    }
