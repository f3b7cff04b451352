import type { Vec3 } from '../space'
import type { IntensityGrid, OpeningSide } from './intensityGrid'
import type { Steradians } from './units'

/**
 * How a modifier shines: the contract between gear (which fills parameters), the meter (which integrates) and the
 * renderer (which samples). Everything is in the local frame of the lit face (origin: its centre; +z: its axis, out
 * towards the aim point) and per 1 cd·s of axial intensity of the head in its 65° standard dish.
 * So luminance is in (cd·s/m²)/(cd·s) = 1/m², flux in (lm·s)/(cd·s) = sr.
 */
export interface Emission {
  readonly profile: 'uniform' | 'cosine-disc' | 'canopy' | 'lobe-table' | 'intensity-table'
  /** Outline of the lit surface, for quadrature, drawing and occlusion. */
  readonly surface: LitSurface
  /** What the light must pass after it has left the lit surface. */
  readonly gate: Gate
  /** Dish and head body that stand in the source's own light. */
  readonly blockers: readonly Cylinder[]
  /** Area route: the unit square onto the lit surface; areaM2 is the Jacobian, so Σ L·areaM2/N integrates over area. */
  at(u: number, v: number): SurfacePoint
  /** Luminance of a surface point in a unit direction away from it, lamp disc integrated, gate included, blockers not. */
  luminance(at: SurfacePoint, direction: Vec3): number
  /** Works out ahead, for a record of `at` that is asked again and again, what no direction changes. Left out: nothing to gain. */
  keep?(at: SurfacePoint): void
  /** Flux route: one lit point from four numbers in [0,1). null: this share of the lamp's flux missed the surface. */
  sample(u: readonly [number, number, number, number]): LitPoint | null
  /**
   * Lit points spread evenly over the surface, for the picture: where a lamp's own body hides the brightest part of a
   * canopy, points that crowd there see nothing. null: unlit there.
   */
  spread(u: readonly [number, number, number, number]): LitPoint | null
  /** Flux that leaves the lit surface, blockers left out. Closed form where there is one. */
  readonly flux: Steradians
}

export interface SurfacePoint {
  readonly point: Vec3
  /** Unit, out of the lit side. */
  readonly normal: Vec3
  readonly areaM2: number
}

/** One lit point with all that is needed to know how bright it looks from any side: see lobes.ts for L(direction). */
export interface LitPoint extends SurfacePoint {
  /** Radiance factor of the matt part, 1/m². */
  readonly diffuse: number
  /** Unit, from the point towards the lamp point that lights it; used by specular and forward. */
  readonly incident: Vec3
  /** Irradiance × reflectance of the glossy part (GGX), 1/m², and its α = roughness². */
  readonly specular: number
  readonly alpha: number
  /** Irradiance × transmittance × w of the forward lobe, and its exponent m; the axis is −incident. */
  readonly forward: number
  readonly forwardExponent: number
  /** Axial luminance of a cosⁿ beam, and n: L = beam·cosⁿ⁻¹θ about +z. */
  readonly beam: number
  readonly beamExponent: number
}

export type LitSurface =
  | { readonly shape: 'disc'; readonly radiusM: number }
  | { readonly shape: 'rectangle'; readonly widthM: number; readonly heightM: number }
  | { readonly shape: 'octagon'; readonly widthM: number }
  /** Spherical cap; hollow: lit on the inside, rim plane at z = 0, apex at z = −depthM; else lit on the outside, apex at z = 0. */
  | { readonly shape: 'cap'; readonly diameterM: number; readonly depthM: number; readonly hollow: boolean }

/** Share of light that passes, as a function of point and direction, both local. */
export type Gate =
  | { readonly kind: 'open' }
  /** Round cells; per emission.md §2. */
  | { readonly kind: 'honeycomb'; readonly depthOverWidth: number; readonly wallLoss: number }
  /** Square cloth cells. */
  | { readonly kind: 'cells'; readonly depthOverWidth: number }
  /** The ray must cross the plane z = zM inside a circle or a rectangle about the axis: rim of a canopy, lip of a box, mouth of a snoot. */
  | { readonly kind: 'opening'; readonly zM: number; readonly radiusM: number }
  | { readonly kind: 'window'; readonly zM: number; readonly widthM: number; readonly heightM: number }
  /** A honeycomb over the rim of a canopy: both the round cells and the opening. */
  | {
      readonly kind: 'combed-opening'
      readonly zM: number
      readonly radiusM: number
      readonly depthOverWidth: number
      readonly wallLoss: number
    }
  /** Spill: only what misses a cap (given in this local frame) gets through. */
  | { readonly kind: 'past-cap'; readonly cap: LocalCap }
  /** Spill past a flat cloth: only what does not cross that window gets through. */
  | { readonly kind: 'past-window'; readonly zM: number; readonly widthM: number; readonly heightM: number }
  /** Drawn backwards, the ray must come from a circle about the axis behind the point: a lamp seen through the mouth of a snoot. */
  | { readonly kind: 'lamp-behind'; readonly zM: number; readonly radiusM: number }
  /** Only the direction counts: its share of the brightest intensity in a measured table. */
  | { readonly kind: 'intensities'; readonly grid: IntensityGrid; readonly side: OpeningSide }
  /** Only the height of the direction counts, straight down along +z: the CIE overcast sky, of its zenith's luminance. */
  | { readonly kind: 'overcast' }

/** A spherical cap in a local frame: centre of its rim, unit axis from the rim plane to the apex, rim diameter, depth. */
export interface LocalCap {
  readonly rimCentre: Vec3
  readonly axis: Vec3
  readonly diameterM: number
  readonly depthM: number
}

/** A capped, opaque cylinder on the segment from → to. */
export interface Cylinder {
  readonly from: Vec3
  readonly to: Vec3
  readonly radiusM: number
}
