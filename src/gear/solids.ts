import type { Rgb } from '../photometry'
import type { Rect, Vec3 } from '../space'

/** How a side looks in other light: matt, or a metal of F0 a band and roughness r with α = r². */
export type Finish =
  | { readonly kind: 'matt'; readonly albedo: Rgb }
  | { readonly kind: 'metal'; readonly f0: Rgb; readonly roughness: number }

/**
 * Opaque parts of gear, in the source's frame; rig moves them into the world. axis of a cap: from the rim plane to the
 * apex. albedo: matt, of the front, which is along the normal and outside of a cap. back of a thin part: where it differs.
 */
export type GearSolid =
  | {
      readonly kind: 'cylinder'
      readonly from: Vec3
      readonly to: Vec3
      readonly radiusM: number
      readonly albedo: Rgb
    }
  | { readonly kind: 'rectangle'; readonly rect: Rect; readonly albedo: Rgb; readonly back?: Finish }
  | {
      readonly kind: 'disc'
      readonly centre: Vec3
      readonly normal: Vec3
      readonly radiusM: number
      readonly albedo: Rgb
      readonly back?: Finish
    }
  | {
      readonly kind: 'cap'
      readonly rimCentre: Vec3
      readonly axis: Vec3
      readonly diameterM: number
      readonly depthM: number
      readonly albedo: Rgb
      readonly back?: Finish
    }

export const finishOf = (solid: GearSolid, side: 'front' | 'back'): Finish =>
  (side === 'back' && 'back' in solid ? solid.back : undefined) ?? { kind: 'matt', albedo: solid.albedo }
